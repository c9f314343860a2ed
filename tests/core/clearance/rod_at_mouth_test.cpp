#include "core/clearance/rod_at_mouth.h"

#include <gtest/gtest.h>

#include "tests/core/clearance/fit_bench.h"

namespace rodway {
namespace {

/// A demo rod as it stands on the heel, its tube along it, 20 mm long about a station: the mouths
/// lie 10 mm to either side. By hand.
struct AlongItsTube {
    RodInTube rod = demo_rod("v8-port-tubes", 0);
    Pose pose = *rod.linkage.at(0.0);
    double length_mm = (pose.upper_ball_K - pose.lower_ball_K).norm();

    [[nodiscard]] double radius(double station, BoreEnd end) {
        rod.tube.axis_K = (pose.upper_ball_K - pose.lower_ball_K).normalized();
        rod.tube.centre_K = pose.lower_ball_K + station * rod.tube.axis_K;
        rod.tube.length_mm = 20.0;
        return rod_at_mouth(rod, pose, end).radius_mm;
    }
};

TEST(RodAtMouth, OfAStraightRodIsItsRadius) {
    AlongItsTube along;
    EXPECT_EQ(along.radius(100.0, BoreEnd::top), along.rod.rod_radius_mm);
    EXPECT_EQ(rod_at_mouth(along.rod, along.pose, BoreEnd::top).lower_K, along.pose.lower_ball_K);
    EXPECT_EQ(rod_at_mouth(along.rod, along.pose, BoreEnd::top).upper_K, along.pose.upper_ball_K);
}

TEST(RodAtMouth, TakesTheTaperAndTheStepThatStandThere) {
    AlongItsTube along;
    const double L = along.length_mm;
    // Thick, from 120 tapering from 5 to 4 over 40 mm, then thin.
    along.rod.profile = {{0.0, 120.0, 6.0, 6.0}, {120.0, 160.0, 5.0, 4.0}, {160.0, L, 3.0, 3.0}};
    EXPECT_NEAR(along.radius(130.0, BoreEnd::top), 4.5, 1e-9);
    EXPECT_NEAR(along.radius(129.0, BoreEnd::bottom), 6.0, 1e-9);
    EXPECT_NEAR(along.radius(131.0, BoreEnd::bottom), 4.975, 1e-9);
    EXPECT_NEAR(along.radius(151.0, BoreEnd::top), 3.0, 1e-9);
    // A rounded edge ends the mouth where the rounding begins.
    along.rod.tube.top_edge_radius_mm = 4.0;
    EXPECT_NEAR(along.radius(134.0, BoreEnd::top), 4.5, 1e-9);
    along.rod.tube.bottom_edge_radius_mm = 4.0;
    EXPECT_NEAR(along.radius(126.5, BoreEnd::bottom), 4.9875, 1e-9);
}

TEST(RodAtMouth, AtAStepTheThickerCountsAndBeyondABallTheBall) {
    AlongItsTube along;
    const double L = along.length_mm;
    along.rod.profile = {{0.0, 120.0, 3.0, 3.0}, {120.0, L, 5.0, 4.0}};
    EXPECT_NEAR(along.radius(110.0, BoreEnd::top), 5.0, 1e-9);
    EXPECT_NEAR(along.radius(130.0, BoreEnd::bottom), 5.0, 1e-9);
    EXPECT_NEAR(along.radius(L, BoreEnd::top), 4.0, 1e-9);
    EXPECT_NEAR(along.radius(0.0, BoreEnd::bottom), 3.0, 1e-9);
}

} // namespace
} // namespace rodway
