#include "core/valvetrain/sweep_stripe.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/valvetrain/lash_setting.h"
#include "core/valvetrain/train_motion.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;
constexpr double arm_mm = 38.0;
constexpr double lobe_lift_mm = 8.0;

/// An invented train in a plane, upright valve and rod; its pivot stands `low_by_mm` below where
/// its tip arm would be square at half of the lift, and `reach_mm` nearer to the valve than its
/// arm's middle needs.
Train train_with(double low_by_mm, double reach_mm, double net_lift_mm) {
    const double tip_height_mm = net_lift_mm / 2.0 + low_by_mm;
    Train train;
    train.lifter.foot_K = Vec3(0.0, -24.0, 100.0);
    train.lifter.seat_height_mm = 40.0;
    train.rocker.pivot_K = Vec3(0.0, 0.0, 340.0);
    train.rocker.ball_arm_K = Vec3(0.0, -24.0, -4.0);
    train.rocker.tip_arm_K =
        Vec3(0.0, std::sqrt(arm_mm * arm_mm - tip_height_mm * tip_height_mm), tip_height_mm);
    train.rod.length_mm = 196.0;
    train.adjuster.can_go_in_mm = 3.0;
    train.adjuster.can_go_out_mm = 3.0;
    const double square_end_mm = std::sqrt(arm_mm * arm_mm - net_lift_mm * net_lift_mm / 4.0);
    train.valve.tip_K = Vec3(0.0, (arm_mm + square_end_mm) / 2.0 - reach_mm, 340.0 + tip_height_mm);
    return train;
}

/// What a builder would read on that train, with a doubt, without lash.
StripeReadings read_from(const Train& train, double net_lift_mm, double doubt_mm) {
    const auto closing = Linkage::close(train);
    EXPECT_TRUE(closing.linkage.has_value());
    const auto sweep_at = [&](double valve_lift_mm) {
        const auto lobe = lobe_lift_at_valve_lift(*closing.linkage, valve_lift_mm, 30.0);
        return Interval::about(train_at_lift(train, *closing.linkage, *lobe)->sweep_mm, doubt_mm);
    };
    StripeReadings readings;
    readings.on_heel_mm = sweep_at(0.0);
    readings.half_lift_mm = sweep_at(net_lift_mm / 2.0);
    readings.full_lift_mm = sweep_at(net_lift_mm);
    readings.tip_diameter_mm = Interval::exactly(8.7);
    readings.net_lift_mm = Interval::exactly(net_lift_mm);
    readings.tip_arm_mm = Interval::exactly(arm_mm);
    return readings;
}

// Against the closed train: the pivot's error, the arm's angle at half lift and the reach come
// back.
TEST(SweepStripe, GivesBackWhereTheClosedTrainsPivotStands) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(-1.0, 1.0);
    for (int round = 0; round < 300; ++round) {
        const double lift_mm = 11.0 + 3.0 * unit(random);
        const double low_by_mm = 4.0 * unit(random);
        const double reach_mm = 2.0 * unit(random);
        const Train train = train_with(low_by_mm, reach_mm, lift_mm);
        const auto stripe = sweep_stripe(read_from(train, lift_mm, 0.0), 0.0);
        ASSERT_TRUE(stripe.ok());
        ASSERT_NEAR(stripe->raise_pivot_mm->middle(), low_by_mm, 1e-7); // bisection of lift
        ASSERT_NEAR(stripe->middle_once_square_mm->middle(), reach_mm, 1e-7);
        // Where the chord's middle stands: q·sin of the arm's angle there, less the chord's own
        // sag.
        const double half_swing_mm =
            std::sqrt(arm_mm * arm_mm -
                      std::pow(lift_mm / std::cos(stripe->half_lift_arm_rad.middle()), 2) / 4.0);
        ASSERT_NEAR(half_swing_mm * std::sin(stripe->half_lift_arm_rad.middle()), low_by_mm, 1e-7);
        ASSERT_EQ(stripe->pivot, low_by_mm > 0.0 ? PivotStanding::low : PivotStanding::high);
        ASSERT_EQ(stripe->reach,
                  reach_mm > 0.0 ? StripeReach::beyond_middle : StripeReach::towards_pivot);
        // With its doubt the truth lies within.
        const auto doubted = sweep_stripe(read_from(train, lift_mm, 0.1), 0.0);
        ASSERT_TRUE(doubted->raise_pivot_mm->holds(low_by_mm));
        ASSERT_TRUE(doubted->middle_once_square_mm->holds(reach_mm));
        ASSERT_LT(doubted->raise_pivot_mm->half_width(), 0.2 * arm_mm / lift_mm * 1.5);
    }
}

// Worked by hand: from the middle of a tip of 8 mm.
TEST(SweepStripe, WidthMiddleAndRoomToTheEdge) {
    StripeReadings readings;
    readings.on_heel_mm = {-1.1, -0.9};
    readings.half_lift_mm = {0.4, 0.6};
    readings.full_lift_mm = {-0.6, -0.4};
    readings.tip_diameter_mm = Interval::exactly(8.0);
    readings.net_lift_mm = Interval::exactly(12.0);
    const auto stripe = sweep_stripe(readings, 1.0);
    ASSERT_TRUE(stripe.ok());
    EXPECT_NEAR(stripe->width_mm.low, 1.3, 1e-12);
    EXPECT_NEAR(stripe->width_mm.high, 1.7, 1e-12);
    EXPECT_NEAR(stripe->middle_mm.middle(), -0.25, 1e-12);
    EXPECT_NEAR(stripe->to_edge_mm.low, 2.9, 1e-12);
    EXPECT_NEAR(stripe->to_edge_mm.high, 3.1, 1e-12);
    EXPECT_EQ(stripe->pivot, PivotStanding::right); // .5 gained, ±.2, within 1
    EXPECT_EQ(stripe->reach, StripeReach::centred);
    EXPECT_TRUE(stripe->likely.empty());
    EXPECT_FALSE(stripe->raise_pivot_mm.has_value()) << "without the arm's length";
    EXPECT_NEAR(stripe->half_lift_arm_rad.middle(), std::atan(0.5 / 12.0), 1e-4);
    EXPECT_EQ(sweep_stripe(readings, 0.6)->pivot, PivotStanding::undecided);
    EXPECT_EQ(sweep_stripe(readings, 0.2)->pivot, PivotStanding::low);
    EXPECT_EQ(sweep_stripe(readings, 0.2)->reach, StripeReach::undecided)
        << "a pivot that is off moves the stripe's middle, too";
}

using Causes = std::vector<StripeCause>;

// Question 14: on a stud the rod sets the pivot's height, on a shaft the stand does (builders'
// common knowledge); the same stripe comes of a valve's tip that stands wrong.
TEST(SweepStripe, StudAndShaftHaveDifferentCauses) {
    StripeReadings low = read_from(train_with(3.0, 0.0, 12.0), 12.0, 0.05);
    low.rocker_ratio = 1.6;
    const auto shaft = sweep_stripe(low, 0.5);
    EXPECT_EQ(shaft->likely, (Causes{StripeCause::stand_low, StripeCause::valve_tip_high}));
    EXPECT_FALSE(shaft->rod_longer_mm.has_value()) << "no rod moves a shaft's stripe";
    for (const RockerMount mount : {RockerMount::stud, RockerMount::ball_pivot}) {
        low.mount = mount;
        const auto stud = sweep_stripe(low, 0.5);
        EXPECT_EQ(stud->likely, (Causes{StripeCause::rod_short, StripeCause::valve_tip_high}));
        EXPECT_NEAR(stud->rod_longer_mm->middle(), 3.0 * (1.0 + 1.0 / 1.6), 0.05);
    }
    StripeReadings high = read_from(train_with(-3.0, 1.5, 12.0), 12.0, 0.05);
    EXPECT_EQ(sweep_stripe(high, 0.5)->likely,
              (Causes{StripeCause::stand_high, StripeCause::valve_tip_low,
                      StripeCause::pivot_near_valve}));
    high.mount = RockerMount::stud;
    high.rocker_ratio = 1.6;
    EXPECT_LT(sweep_stripe(high, 0.5)->rod_longer_mm->high, 0.0) << "a shorter one";
    const StripeReadings far = read_from(train_with(0.0, -1.5, 12.0), 12.0, 0.05);
    EXPECT_EQ(sweep_stripe(far, 0.5)->likely, Causes{StripeCause::pivot_far_from_valve});
}

TEST(SweepStripe, BadReadingsAreNamed) {
    const StripeReadings good = read_from(train_with(0.0, 0.0, 12.0), 12.0, 0.05);
    const auto error = [&](auto&& change) {
        StripeReadings readings = good;
        double tolerance_mm = 0.5;
        change(readings, tolerance_mm);
        const auto stripe = sweep_stripe(readings, tolerance_mm);
        return stripe.ok() ? std::string("good") : stripe.error().field;
    };
    EXPECT_EQ(error([](auto&, auto&) {}), "good");
    EXPECT_EQ(error([](auto& r, auto&) { r.on_heel_mm = {2.0, 1.0}; }), "on_heel");
    EXPECT_EQ(error([](auto& r, auto&) { r.half_lift_mm.high = std::nan(""); }), "half_lift");
    EXPECT_EQ(error([](auto& r, auto&) { r.full_lift_mm.high = 31.0; }), "full_lift");
    EXPECT_EQ(error([](auto& r, auto&) { r.tip_diameter_mm.low = 0.0; }), "tip_diameter");
    EXPECT_EQ(error([](auto& r, auto&) { r.net_lift_mm.low = 0.0; }), "net_lift");
    EXPECT_EQ(error([](auto& r, auto&) { r.tip_arm_mm = Interval::exactly(1.5); }), "tip_arm");
    EXPECT_EQ(error([](auto& r, auto&) { r.rocker_ratio = 0.0; }), "ratio");
    EXPECT_EQ(error([](auto&, auto& tolerance_mm) { tolerance_mm = -1.0; }), "tolerance");
    // A contact that gained as much as the lift: no arm of that length can do it.
    StripeReadings cannot = good;
    cannot.on_heel_mm = Interval::exactly(-29.0);
    cannot.full_lift_mm = Interval::exactly(29.0);
    cannot.tip_arm_mm = Interval::exactly(20.0);
    EXPECT_FALSE(sweep_stripe(cannot, 0.5)->raise_pivot_mm.has_value());
}

} // namespace
} // namespace rodway
