#pragma once

#include <optional>
#include <span>
#include <string>

#include "core/engine/engine.h"
#include "core/geometry/round_rod.h"
#include "core/units/angle.h"

namespace rodway {

enum class Wall { front, rear, inboard, outboard };

/// What a rod or a lifter's body may touch.
enum class FeatureKind { port_tube, passage, obstacle, rocker_body };

enum class MovedPart { rod, lifter_body };

/// Where in a passage a wall point lies.
struct PlaceInPassage {
    BoreEnd end = BoreEnd::top; ///< the nearer one
    Wall wall = Wall::front;
    double clock_hours = 12.0; ///< (0, 12], 12 = front, seen from the rocker down
    double depth_mm = 0.0;     ///< from the passage's rocker end
};

/// The clearance of one rod (or lifter's body) from one thing at one lobe lift. Millimetres, bank
/// frame K. `p_wall - p_rod = clearance · normal`; negative where both would share space.
struct RodClearance {
    double lobe_lift_mm = 0.0;
    double clearance_mm = 0.0;
    Vec3 p_rod_K = Vec3::Zero();
    Vec3 p_wall_K = Vec3::Zero();
    Vec3 normal_K = Vec3::UnitX(); ///< unit, from the rod's axis to the wall
    FeatureKind kind = FeatureKind::port_tube;
    std::string feature; ///< its name in the set-up
    MovedPart part = MovedPart::rod;
    double station_mm = 0.0; ///< along the rod from its lower ball's centre; lifter: from its foot
    double ball_radius_mm = 0.0;              ///< of the rod there
    std::optional<PlaceInPassage> in_passage; ///< there only in a tube or another passage
};

/// One rod, its port tube where it stands, and how much the lobe lifts: what a search needs.
struct RodInTube {
    Linkage linkage;
    Bore tube;
    double rod_radius_mm = 0.0; ///< of a straight rod
    double full_lift_mm = 0.0;
    double outboard_y_sign = 1.0;
    RoundSections profile = {}; ///< from ball to ball, of a rod that isn't straight; else empty
    std::string name = "tube";
};

/// A rod and one thing beside or around it, borrowed: `bore` or `solid` is there, never both.
struct RodPair {
    const Linkage& linkage;
    std::span<const RoundSection> rod; ///< from ball to ball, without gaps
    double full_lift_mm = 0.0;
    double outboard_y_sign = 1.0;
    FeatureKind kind = FeatureKind::port_tube;
    const std::string& name;
    const Bore* bore = nullptr;
    const Solid* solid = nullptr; ///< a rocker body: on the heel, from its train's pivot
};

/// The pair that a rod and its port tube make; borrows from `rod`.
class TubePair {
  public:
    explicit TubePair(const RodInTube& rod);
    TubePair(const TubePair&) = delete;
    TubePair& operator=(const TubePair&) = delete;
    [[nodiscard]] const RodPair& pair() const { return pair_; }

  private:
    RoundSection straight_;
    RodPair pair_;
};

/// Direction of a wall point from the tube's axis. 12 o'clock is -x put square to that axis.
struct WallDirection {
    double clock_hours = 12.0;
    Wall wall = Wall::front;
};
[[nodiscard]] WallDirection wall_direction(const Bore& tube, const Vec3& p_wall_K,
                                           double outboard_y_sign);

/// Sections of a rod from ball to ball, without gaps: where its profile says nothing, it is taken
/// as thick as its thickest.
[[nodiscard]] RoundSections rod_sections(const Pushrod& rod);

/// The rod's ball that comes closest at a pose. Empty if the rod's axis doesn't go through the
/// bore, or a size is no number.
[[nodiscard]] std::optional<ClosestBall> closest_ball(const RodPair& pair, const Pose& pose);
[[nodiscard]] RodClearance rod_clearance(const RodPair& pair, const ClosestBall& ball,
                                         double lobe_lift_mm);

/// Empty if the train doesn't close at this lift, or the rod's axis doesn't go through the tube.
[[nodiscard]] std::optional<RodClearance> rod_clearance_at(const RodInTube& rod,
                                                           double lobe_lift_mm);

} // namespace rodway
