// One invented train, whose figures come from an independent slow script (closed linkage, brute
// search over the tube's rims): a second method, never a published witness. All tolerances here are
// half of the last digit that script gave, unless said otherwise.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "core/castings/moving_castings.h"
#include "core/clearance/certified_minimum.h"
#include "core/units/angle.h"
#include "core/units/length.h"

namespace rodway {
namespace {

Vec3 inches(double x, double y, double z) {
    return Vec3(x, y, z) * Length::mm_per_inch;
}
double in(double mm) {
    return mm / Length::mm_per_inch;
}

enum class Case { A, B };

Train train(Case which) {
    Train made;
    made.lifter.foot_K = inches(0.0, -3.535534, 5.845534 - 1.750);
    made.lifter.seat_height_mm = Length::inches(1.750).in_mm();
    made.rod.length_mm = Length::inches(8.968198).in_mm();
    made.rod.diameter_mm = Length::inches(0.3125).in_mm();
    made.rocker.pivot_K = inches(0.25, -1.25, 14.75);
    made.rocker.ball_arm_K = inches(0.0, -0.883583, -0.050054);
    made.rocker.tip_arm_K = inches(0.0, 1.332916, 0.687993);
    const Vec3 rod = made.rocker.pivot_K + made.rocker.ball_arm_K - made.lifter.lower_ball_K();
    made.adjuster.axis_K = -rod.normalized();
    made.adjuster.can_go_in_mm = 10.0;
    made.adjuster.can_go_out_mm = 10.0;
    made.valve.axis_K = Vec3(0.0, -0.258819, 0.965926).normalized();
    made.valve.lash_mm = Length::inches(0.018).in_mm();
    made.tube.bore.axis_K = Vec3(0.027876, 0.157382, 0.987144).normalized();
    made.tube.bore.length_mm = Length::inches(3.0).in_mm();
    made.tube.bore.bore_radius_mm = Length::inches(0.5625 / 2.0).in_mm();
    made.tube.bore.centre_K =
        which == Case::A ? inches(0.15, -2.688677, 11.347277) : inches(0.15, -2.639300, 11.339405);
    return made;
}

constexpr double full_lift_in = 0.380;

RodInTube rod_in(const Train& made) {
    const auto closing = Linkage::close(made);
    EXPECT_EQ(closing.status, TrainStatus::answered);
    return {*closing.linkage, made.tube.bore, made.rod.diameter_mm / 2.0,
            Length::inches(full_lift_in).in_mm(), 1.0};
}

CertifiedMinimum minimum(const Train& made) {
    const CertifiedMinimum found = certified_minimum(rod_in(made));
    EXPECT_EQ(found.status, TrainStatus::answered);
    return found;
}

/// Change of the minimum, thousandths of an inch.
double change_thou(Case which, const std::function<void(Train&)>& change) {
    Train changed = train(which);
    change(changed);
    const double before = minimum(train(which)).minimum->clearance_mm;
    return 1000.0 * in(minimum(changed).minimum->clearance_mm - before);
}

TEST(PlausibleTrain, TiltSwingLiftAndRatioAreThoseOfTheSlowScript) {
    const Linkage linkage = rod_in(train(Case::A)).linkage;
    double least = 90.0;
    double most = 0.0;
    for (int look = 0; look <= 100; ++look) {
        const auto pose = linkage.at(Length::inches(full_lift_in).in_mm() * look / 100.0);
        const Vec3 rod = (pose->upper_ball_K - pose->lower_ball_K).normalized();
        const double tilt = degrees(std::acos(rod.z()));
        least = std::min(least, tilt);
        most = std::max(most, tilt);
    }
    EXPECT_NEAR(least, 9.1, 0.05);
    EXPECT_NEAR(most, 9.5, 0.05);
    const Pose full = *linkage.at(Length::inches(full_lift_in).in_mm());
    EXPECT_NEAR(degrees(std::abs(std::atan2(full.sin_turned, full.cos_turned))), 24.5, 0.05);
    EXPECT_NEAR(in(linkage.gross_lift_mm(full)), 0.636, 0.0005);
    EXPECT_NEAR(in(linkage.valve_lift_mm(full)), 0.618, 0.0005);
    // 'Nearly constant': the local ratio at a third of the lift is the script's, and it wanders by
    // a quarter of a per cent.
    const auto ratio = [&](double lift_in) {
        const double h = 1e-3;
        const double mm = Length::inches(lift_in).in_mm();
        return (linkage.gross_lift_mm(*linkage.at(mm + h)) -
                linkage.gross_lift_mm(*linkage.at(mm - h))) /
               (2.0 * h);
    };
    EXPECT_NEAR(ratio(full_lift_in / 3.0), 1.674, 0.0005);
    for (double s = 0.01; s < full_lift_in; s += 0.02) {
        EXPECT_NEAR(ratio(s), 1.672, 0.0025);
    }
}

TEST(PlausibleTrain, CaseAIsLeastOnTheHeelAtTheOutboardBottom) {
    const CertifiedMinimum found = minimum(train(Case::A));
    EXPECT_NEAR(in(found.on_heel->clearance_mm), 0.0989, 0.00005);
    EXPECT_NEAR(in(found.at_full_lift->clearance_mm), 0.1142, 0.00005);
    EXPECT_NEAR(in(found.minimum->clearance_mm), 0.0989, 0.00005);
    EXPECT_EQ(found.minimum->lobe_lift_mm, 0.0);
    EXPECT_EQ(found.minimum->in_passage->wall, Wall::outboard);
    EXPECT_EQ(found.minimum->in_passage->end, BoreEnd::bottom);
}

TEST(PlausibleTrain, CaseBIsLeastAtFullLiftAtTheInboardBottom) {
    const CertifiedMinimum found = minimum(train(Case::B));
    EXPECT_NEAR(in(found.on_heel->clearance_mm), 0.0969, 0.00005);
    EXPECT_NEAR(in(found.at_full_lift->clearance_mm), 0.0654, 0.00005);
    EXPECT_NEAR(in(found.minimum->clearance_mm), 0.0654, 0.00005);
    EXPECT_NEAR(in(found.minimum->lobe_lift_mm), full_lift_in, 1e-9);
    EXPECT_EQ(found.minimum->in_passage->wall, Wall::inboard);
    EXPECT_EQ(found.minimum->in_passage->end, BoreEnd::bottom);
}

/// Both flanges square to the decks of the 90° vee; the tube is on the bank that leans to +y.
std::function<void(Train&)> gasket(double thicker_in) {
    const BankFrame here(radians(45.0));
    const BankFrame there(radians(-45.0));
    const double gained = Length::inches(thicker_in).in_mm();
    const auto moved_E = intake_movement_E({{here.to_block(Vec3(0.0, -1.0, 0.0)), gained},
                                            {there.to_block(Vec3(0.0, 1.0, 0.0)), gained}});
    const Vec3 moved_K = here.from_block(*moved_E);
    return [moved_K](Train& made) { made.tube.bore.centre_K += moved_K; };
}

TEST(PlausibleTrain, GasketsMoveTheMinimumByWhicheverWallIsNear) {
    EXPECT_NEAR(change_thou(Case::A, gasket(0.060)), -68.0, 0.5);
    EXPECT_NEAR(change_thou(Case::B, gasket(0.060)), 15.0, 0.5);
    EXPECT_NEAR(change_thou(Case::A, gasket(-0.060)), -53.0, 0.5);
    EXPECT_NEAR(change_thou(Case::B, gasket(-0.060)), -69.0, 0.5);
}

TEST(PlausibleTrain, AThickerRodLosesHalfItsDiameter) {
    const auto thicker = [](Train& made) {
        made.rod.diameter_mm += Length::inches(1.0 / 16.0).in_mm();
    };
    EXPECT_NEAR(change_thou(Case::A, thicker), -31.25, 0.01); // closed form: 1/32 in
    EXPECT_NEAR(change_thou(Case::B, thicker), -31.25, 0.01);
}

TEST(PlausibleTrain, TippingTheTubeOneDegreeCostsClearanceWhicheverWay) {
    double worst = 0.0;
    double mildest = -100.0;
    for (const Case which : {Case::A, Case::B}) {
        for (int way = 0; way < 8; ++way) {
            const double change = change_thou(which, [&](Train& made) {
                const Vec3 along = made.tube.bore.axis_K.unitOrthogonal();
                const Vec3 about =
                    Eigen::AngleAxisd(radians(45.0 * way), made.tube.bore.axis_K) * along;
                made.tube.bore.axis_K =
                    (Eigen::AngleAxisd(radians(1.0), about) * made.tube.bore.axis_K).normalized();
            });
            worst = std::min(worst, change);
            mildest = std::max(mildest, change);
        }
    }
    EXPECT_NEAR(worst, -26.0, 1.5); // the script tipped it in other directions: 'a few to -26'
    EXPECT_LT(mildest, 0.0);
    EXPECT_GT(mildest, -10.0);
}

/// A lifter 0.100 in taller; the adjuster's axis as given, in the bank frame.
std::function<void(Train&)> taller_lifter(const std::function<Vec3(const Train&)>& adjuster_axis) {
    return [adjuster_axis](Train& made) {
        made.adjuster.axis_K = adjuster_axis(made);
        made.lifter.seat_height_mm += Length::inches(0.100).in_mm();
    };
}

TEST(PlausibleTrain, ATallerLifterDependsOnWhatIsHeldAndHowTheScrewLies) {
    const auto new_rod = [](Train& made) {
        made.lifter.seat_height_mm += Length::inches(0.100).in_mm();
        made.rod.length_mm =
            (made.rocker.pivot_K + made.rocker.ball_arm_K - made.lifter.lower_ball_K()).norm();
    };
    EXPECT_NEAR(change_thou(Case::A, new_rod), 6.0, 0.5);
    EXPECT_NEAR(change_thou(Case::B, new_rod), -10.0, 0.5);
    const auto square_to_arm = taller_lifter([](const Train& made) {
        const Vec3 arm = made.rocker.ball_arm_K.normalized();
        const Vec3 square = made.rocker.axis_K.cross(arm).normalized();
        return square.z() < 0.0 ? square : Vec3(-square);
    });
    EXPECT_NEAR(change_thou(Case::A, square_to_arm), 6.0, 0.5);
    EXPECT_NEAR(change_thou(Case::B, square_to_arm), -3.0, 0.5);
    const auto along_rod = taller_lifter([](const Train& made) { return made.adjuster.axis_K; });
    // The script's own note says -10 without saying exactly how its screw lay; for a screw along
    // the rod as it stands on the heel another slow script (walk along the rod, 40,000 points)
    // gives this.
    EXPECT_NEAR(change_thou(Case::A, along_rod), -9.049, 0.001);
    EXPECT_NEAR(change_thou(Case::B, along_rod), 6.0, 0.5);
}

TEST(PlausibleTrain, ARockerThatFloatsOnItsShaftCostsUpToFiveThousandths) {
    double worst = 0.0;
    for (const Case which : {Case::A, Case::B}) {
        for (const double way : {-1.0, 1.0}) {
            worst = std::min(worst, change_thou(which, [&](Train& made) {
                                 made.rocker.pivot_K.x() += way * Length::inches(0.020).in_mm();
                             }));
        }
    }
    EXPECT_NEAR(worst, -5.0, 0.5);
}

} // namespace
} // namespace rodway
