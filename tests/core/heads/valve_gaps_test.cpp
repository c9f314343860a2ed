#include "core/heads/valve_gaps.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/geometry/frames.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;

/// A valve's head as points of its rim: middle, axis (the way it opens) and radius.
std::vector<Vec3> rim(const Vec3& middle, const Vec3& opens, double radius_mm) {
    const Vec3 one = opens.unitOrthogonal();
    const Vec3 other = opens.cross(one);
    std::vector<Vec3> points;
    constexpr int count = 720;
    for (int at = 0; at < count; ++at) {
        const double angle = radians(360.0 * at / count);
        points.push_back(middle + radius_mm * (std::cos(angle) * one + std::sin(angle) * other));
    }
    return points;
}

// Slow twin: two leaning discs moved along their axes, z down the bore, their heads facing each
// other; the gap across is the least difference along x. 720 points a rim miss its end by up to
// r·(0.25°)²/2, 0.0003 mm.
TEST(ValveGaps, AgreeWithDiscsMovedAlongTheirAxes) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int round = 0; round < 200; ++round) {
        const double intake_lean = radians(-10.0 + 40.0 * unit(random));
        const double exhaust_lean = radians(-10.0 + 40.0 * unit(random));
        const Vec3 intake_opens(std::sin(intake_lean), 0.0, std::cos(intake_lean));
        const Vec3 exhaust_opens(-std::sin(exhaust_lean), 0.0, std::cos(exhaust_lean));
        const double apart_mm = 42.0 + 6.0 * unit(random);
        const auto across_mm = [&](double intake_mm, double exhaust_mm) {
            double right = -1e9;
            double left = 1e9;
            for (const Vec3& point : rim(Vec3(-apart_mm / 2.0, 0.0, 0.0) + intake_mm * intake_opens,
                                         intake_opens, 22.0)) {
                right = std::max(right, point.x());
            }
            for (const Vec3& point :
                 rim(Vec3(apart_mm / 2.0, 0.0, 0.0) + exhaust_mm * exhaust_opens, exhaust_opens,
                     18.0)) {
                left = std::min(left, point.x());
            }
            return left - right;
        };
        const double measured_at[2] = {2.0 * unit(random), 2.0 * unit(random)};
        ValvePairGap pair;
        pair.gap_mm = Interval::exactly(across_mm(measured_at[0], measured_at[1]));
        pair.intake_lift_mm = Interval::exactly(measured_at[0]);
        pair.exhaust_lift_mm = Interval::exactly(measured_at[1]);
        pair.intake_lean_rad = intake_lean;
        pair.exhaust_lean_rad = exhaust_lean;
        const double lifts[2] = {6.0 * unit(random), 6.0 * unit(random)};
        const auto found = valve_to_valve(pair, {{CrankAngle::deg(0.0), Interval::exactly(lifts[0]),
                                                  Interval::exactly(lifts[1])}});
        ASSERT_TRUE(found.ok());
        ASSERT_NEAR(found->gaps[0].gap_mm.middle(), across_mm(lifts[0], lifts[1]), 0.0007);
        // One head against a wall at x = 100: the same movement.
        const auto wall =
            valve_to_wall({Interval::exactly(30.0), Interval::exactly(0.0), exhaust_lean},
                          Interval::exactly(lifts[1]));
        ASSERT_NEAR(30.0 - wall->middle(), -exhaust_opens.x() * lifts[1], 1e-12);
    }
}

// Parallel valves come no nearer, whatever their lifts; leaning ones do so most where the two lifts
// together are greatest. Worked by hand: sin 30° = 1/2.
TEST(ValveGaps, TheTightestPlaceOfTheOverlapIsFoundWithItsDoubt) {
    const std::vector<ValveLifts> overlap{
        {CrankAngle::deg(-10.0), {1.0, 1.2}, {2.0, 2.2}},
        {CrankAngle::deg(0.0), {2.0, 2.2}, {1.8, 2.0}},
        {CrankAngle::deg(10.0), {3.0, 3.2}, {0.6, 0.8}},
    };
    ValvePairGap pair;
    pair.gap_mm = {2.9, 3.1};
    const auto parallel = valve_to_valve(pair, overlap);
    ASSERT_TRUE(parallel.ok());
    for (const ValvePairGapAt& each : parallel->gaps) {
        EXPECT_EQ(each.gap_mm, (Interval{2.9, 3.1}));
    }
    pair.intake_lean_rad = radians(30.0);
    pair.exhaust_lean_rad = radians(30.0);
    const auto leaning = valve_to_valve(pair, overlap);
    EXPECT_EQ(leaning->tightest, 1u);
    EXPECT_EQ(leaning->gaps[1].at, CrankAngle::deg(0.0));
    EXPECT_NEAR(leaning->gaps[1].gap_mm.low, 2.9 - 1.1 - 1.0, 1e-12);
    EXPECT_NEAR(leaning->gaps[1].gap_mm.high, 3.1 - 1.0 - 0.9, 1e-12);
    pair.exhaust_lean_rad = 0.0;
    EXPECT_EQ(valve_to_valve(pair, overlap)->tightest, 2u) << "the intake's lift alone counts";
    pair.exhaust_lean_rad = radians(-30.0);
    EXPECT_NEAR(valve_to_valve(pair, overlap)->gaps[0].gap_mm.low, 2.9 - 0.6 + 1.0, 1e-12);
}

// Worked by hand: 4.030 in bore, middle of the head .950 in off its axis, head 2.020 in.
TEST(ValveGaps, AClosedValvesGapToTheWallFollowsFromSizes) {
    const auto gap = valve_to_wall_by_sizes({102.3, 102.4}, {24.1, 24.2}, {51.2, 51.4});
    ASSERT_TRUE(gap.ok());
    EXPECT_NEAR(gap->low, 51.15 - 24.2 - 25.7, 1e-12);
    EXPECT_NEAR(gap->high, 51.2 - 24.1 - 25.6, 1e-12);
    EXPECT_EQ(valve_to_wall_by_sizes({4.0, 4.0}, {24.1, 24.2}, {51.2, 51.4}).error().field, "bore");
}

TEST(ValveGaps, BadReadingsAreNamed) {
    const Interval lift = Interval::exactly(1.0);
    ValvePairGap pair;
    pair.gap_mm = {2.9, 3.1};
    EXPECT_EQ(valve_to_valve(pair, {}).error().code, ErrorCode::too_few_rows);
    const auto wrong_lift = valve_to_valve(pair, {{{}, lift, lift}, {{}, lift, {-1.0, 1.0}}});
    EXPECT_EQ(wrong_lift.error().field, "exhaust_lift");
    EXPECT_EQ(wrong_lift.error().line, 2);
    pair.intake_lean_rad = 1.2; // 69 degrees
    EXPECT_EQ(valve_to_valve(pair, {{{}, lift, lift}}).error().field, "intake_lean");
    pair.intake_lean_rad = std::nan("");
    EXPECT_EQ(valve_to_valve(pair, {{{}, lift, lift}}).error().code, ErrorCode::not_a_number);
    EXPECT_EQ(valve_to_wall({{3.0, 2.0}, lift, 0.0}, lift).error().code, ErrorCode::order_wrong);
}

} // namespace
} // namespace rodway
