#include "core/tubes/tube_wall.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

// Question 8; worked by hand.
TEST(TubeWall, SaysWhatIsLeftAndWhatMayStillBeTaken) {
    const auto wall = tube_wall({Interval::about(4.0, 0.2), Interval::about(1.0, 0.1), {}}, 2.0);
    ASSERT_TRUE(wall.ok());
    EXPECT_NEAR(wall->left_mm.low, 2.7, 1e-12);
    EXPECT_NEAR(wall->left_mm.high, 3.3, 1e-12);
    EXPECT_NEAR(wall->may_be_taken_mm.low, 0.7, 1e-12);
    EXPECT_NEAR(wall->may_be_taken_mm.high, 1.3, 1e-12);
    EXPECT_FALSE(wall->gone_astray_mm.has_value());
    EXPECT_EQ(
        tube_wall({Interval::about(4.0, 0.2), Interval::about(1.0, 0.1), {}}, 3.5)->may_be_taken_mm,
        Interval::exactly(0.0));
}

TEST(TubeWall, WhatIsMeasuredAfterwardsCountsBeforeWhatWasMeant) {
    TubeWallReadings readings{Interval::about(4.0, 0.2), Interval::about(1.0, 0.1), {}};
    readings.measured_after_mm = Interval::about(2.9, 0.3);
    EXPECT_NEAR(tube_wall(readings, 2.0)->left_mm.low, 2.7, 1e-12) << "both hold from there on";
    EXPECT_NEAR(tube_wall(readings, 2.0)->left_mm.high, 3.2, 1e-12);
    readings.measured_after_mm = Interval::about(1.5, 0.2);
    const auto wall = tube_wall(readings, 2.0);
    EXPECT_NEAR(wall->left_mm.middle(), 1.5, 1e-12);
    EXPECT_NEAR(wall->gone_astray_mm->low, 1.0, 1e-12);
    EXPECT_NEAR(wall->gone_astray_mm->high, 2.0, 1e-12);
    EXPECT_EQ(wall->may_be_taken_mm.high, 0.0);
}

TEST(TubeWall, FromDiametersAnOffCentreBoreIsThinnerOnOneSide) {
    const auto wall = tube_wall_by_diameters(Interval::about(16.0, 0.02),
                                             Interval::about(12.7, 0.02), {0.0, 0.15});
    ASSERT_TRUE(wall.ok());
    EXPECT_NEAR(wall->high, 1.67, 1e-12);
    EXPECT_NEAR(wall->low, 1.63 - 0.15, 1e-12);
}

TEST(TubeWall, BadReadingsAreNamed) {
    const Interval good = Interval::exactly(3.0);
    EXPECT_EQ(tube_wall({{-1.0, 3.0}, good, {}}, 1.0).error().field, "before");
    EXPECT_EQ(tube_wall({good, {0.0, 51.0}, {}}, 1.0).error().field, "relieved_by");
    EXPECT_EQ(tube_wall({good, good, Interval{2.0, 1.0}}, 1.0).error().field, "after");
    EXPECT_EQ(tube_wall({good, good, {}}, std::nan("")).error().field, "least");
    EXPECT_EQ(tube_wall_by_diameters(good, {0.5, 0.5}, good).error().field, "bore");
    EXPECT_EQ(tube_wall_by_diameters({2.0, 2.0}, good, good).error().field, "outside");
    EXPECT_EQ(tube_wall_by_diameters(good, good, {-1.0, 0.0}).error().field, "off_centre");
}

} // namespace
} // namespace rodway
