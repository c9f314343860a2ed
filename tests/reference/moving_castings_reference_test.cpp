// How castings move against figures of the trade.
#include "core/castings/moving_castings.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/castings/intake_shift.h"
#include "core/units/angle.h"

namespace rodway {
namespace {

/// Both banks of a 90° vee whose intake faces stand `off_square_deg` off square to the decks, so
/// that they look up more; both heads milled by 1.
class MilledVee {
  public:
    explicit MilledVee(double off_square_deg) {
        const double turned = radians(45.0 + off_square_deg);
        normal_E_ = Vec3(0.0, -std::cos(turned), std::sin(turned));
        head_moved_E_ = -Vec3(0.0, std::sin(radians(45.0)), std::cos(radians(45.0)));
    }
    /// With so much milled off both intake faces as well.
    [[nodiscard]] Vec3 intake_moved_E(double face_milled) const {
        const double gained = normal_E_.dot(head_moved_E_) - face_milled;
        const Vec3 mirrored_E(0.0, -normal_E_.y(), normal_E_.z());
        return *intake_movement_E({{normal_E_, gained}, {mirrored_E, gained}});
    }
    [[nodiscard]] double ports_up(double face_milled) const {
        return port_shift(normal_E_, intake_moved_E(face_milled), head_moved_E_).up_the_face_mm;
    }
    /// What has to come off the face for the ports to line up again: they go in a straight line.
    [[nodiscard]] double face_to_mill() const {
        return ports_up(0.0) / (ports_up(0.0) - ports_up(1.0));
    }

  private:
    Vec3 normal_E_;
    Vec3 head_moved_E_;
};

// Common practice, from memory: the table that machine shops hang beside the mill, by how far the
// intake face of a 90° vee stands off square; it prints one decimal, at 25° a rounder one.
TEST(MovingCastingsReference, MetalOffTheIntakeFaceForEachThouOffTheHeads) {
    struct Row {
        double off_square_deg;
        double factor;
        double rounded_by;
    };
    for (const Row& row :
         {Row{0.0, 1.0, 1e-12}, Row{5.0, 1.1, 0.05}, Row{10.0, 1.2, 0.05}, Row{15.0, 1.4, 0.05},
          Row{20.0, 1.7, 0.05}, Row{25.0, 2.0, 0.07}, Row{35.0, 4.0, 0.1}, Row{40.0, 8.0, 0.2}}) {
        EXPECT_NEAR(MilledVee(row.off_square_deg).face_to_mill(), row.factor, row.rounded_by)
            << row.off_square_deg;
    }
}

// Common practice, from memory: the most usual V8, whose faces stand 10° off square: heads milled
// .030 want .037 off the intake's sides and .051 off its bottom, where it meets the end rails,
// which is how far it sinks; .060 want .074 and .102. Printed to the thou.
TEST(MovingCastingsReference, HowFarTheIntakeSinksOntoTheEndRails) {
    const MilledVee vee(10.0);
    const double side = vee.face_to_mill();
    const Vec3 moved_E = vee.intake_moved_E(side);
    EXPECT_NEAR(0.030 * side, 0.037, 0.0005);
    EXPECT_NEAR(0.060 * side, 0.074, 0.0005);
    EXPECT_NEAR(-0.030 * moved_E.z(), 0.051, 0.0010);
    EXPECT_NEAR(-0.060 * moved_E.z(), 0.102, 0.0015);
    EXPECT_NEAR(moved_E.y(), 0.0, 1e-12);
}

} // namespace
} // namespace rodway
