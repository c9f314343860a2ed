#include "core/clearance/rod_removal.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

/// An upright rod of 200 mm, its lower ball at z 0, in a tube from z 60 to 140 of 14 mm bore.
/// Every expected figure is arithmetic on these.
Train upright() {
    Train train;
    train.lifter.foot_K = Vec3(0, 0, -40);
    train.lifter.seat_height_mm = 40.0;
    train.rocker.pivot_K = Vec3(0, 30, 200);
    train.rocker.ball_arm_K = Vec3(0, -30, 0);
    train.rod.length_mm = 200.0;
    train.rod.diameter_mm = 9.5;
    train.tube.bore = {Vec3(0, 0, 100), Vec3::UnitZ(), 80.0, 7.0};
    return train;
}

TEST(RodRemoval, AStraightRodLeavesItsBoreLessItsDiameter) {
    const RodRemoval removal = rod_removal(upright());
    ASSERT_EQ(removal.passages.size(), 1u);
    EXPECT_EQ(removal.passages[0].passage, "tube");
    EXPECT_DOUBLE_EQ(removal.passages[0].whole_rod_mm, 4.5);
    EXPECT_DOUBLE_EQ(removal.passages[0].drawn_up_mm, 4.5);
    EXPECT_EQ(removal.passages[0].thickest, RodPart::body);
    EXPECT_TRUE(removal.comes_out);
    EXPECT_FALSE(removal.cup_outside_unknown);
}

TEST(RodRemoval, ALowerBallThatIsTooWideKeepsTheRodIn) {
    Train train = upright();
    train.rod.lower_ball_diameter_mm = 14.5;
    const RodRemoval removal = rod_removal(train);
    EXPECT_DOUBLE_EQ(removal.passages[0].drawn_up_mm, -0.5);
    EXPECT_EQ(removal.passages[0].thickest_below, RodPart::lower_ball);
    EXPECT_FALSE(removal.comes_out);
}

TEST(RodRemoval, AWideCupOnTopNeedNotPassWhenTheRodIsDrawnUp) {
    Train train = upright();
    train.rod.cup_at_top = true;
    train.rod.upper_ball_diameter_mm = 16.0;
    const RodRemoval removal = rod_removal(train);
    EXPECT_DOUBLE_EQ(removal.passages[0].whole_rod_mm, -2.0);
    EXPECT_EQ(removal.passages[0].thickest, RodPart::cup);
    EXPECT_DOUBLE_EQ(removal.passages[0].drawn_up_mm, 4.5);
    EXPECT_TRUE(removal.comes_out);
    EXPECT_TRUE(removal.cup_outside_unknown);
    // Its outside, once measured, is what has to pass.
    train.rod.cup_outside_mm = 19.0;
    EXPECT_DOUBLE_EQ(rod_removal(train).passages[0].whole_rod_mm, -5.0);
    EXPECT_EQ(rod_removal(train).passages[0].thickest, RodPart::cup);
    EXPECT_FALSE(rod_removal(train).cup_outside_unknown);
    train.rod.cup_outside_mm.reset();
    // A ball there is the rod's own.
    train.rod.cup_at_top = false;
    EXPECT_EQ(rod_removal(train).passages[0].thickest, RodPart::upper_ball);
    EXPECT_FALSE(rod_removal(train).cup_outside_unknown);
}

TEST(RodRemoval, OnlyWhatStandsBelowThePassagesUpperEndHasToPassIt) {
    Train train = upright();
    train.rod.diameter_mm = 15.0;
    train.rod.profile = {{0, 145, 8, 8},
                         {145, 200, 15, 15}}; // thick above the tube, which ends at 140
    EXPECT_DOUBLE_EQ(rod_removal(train).passages[0].drawn_up_mm, 6.0);
    EXPECT_DOUBLE_EQ(rod_removal(train).passages[0].whole_rod_mm, -1.0);
    EXPECT_TRUE(rod_removal(train).comes_out);
    train.rod.profile = {{0, 135, 8, 8}, {135, 200, 15, 15}}; // begins in the tube
    EXPECT_DOUBLE_EQ(rod_removal(train).passages[0].drawn_up_mm, -1.0);
    EXPECT_FALSE(rod_removal(train).comes_out);
    // A taper counts up to the tube's end: 8 + 7·80/140 = 12 at station 140.
    train.rod.profile = {{0, 60, 8, 8}, {60, 200, 8, 15}};
    EXPECT_DOUBLE_EQ(rod_removal(train).passages[0].drawn_up_mm, 2.0);
}

TEST(RodRemoval, EveryPassageHasToLetItOutAndAnObroundByItsNarrowWay) {
    Train train = upright();
    train.rod.lower_ball_diameter_mm = 10.0;
    Passage slot;
    slot.name = "guide slot";
    slot.kind = PassageKind::guide_slot;
    slot.bore = {Vec3(0, 0, 180), Vec3::UnitZ(), 5.0, 4.9, 6.0};
    train.further_passages.push_back(slot);
    const RodRemoval removal = rod_removal(train);
    ASSERT_EQ(removal.passages.size(), 2u);
    EXPECT_EQ(removal.passages[1].passage, "guide slot");
    EXPECT_NEAR(removal.passages[1].drawn_up_mm, -0.2, 1e-12);
    EXPECT_GT(removal.passages[0].drawn_up_mm, 0.0);
    EXPECT_FALSE(removal.comes_out);
}

} // namespace
} // namespace rodway
