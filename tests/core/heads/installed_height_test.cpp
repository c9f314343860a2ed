#include "core/heads/installed_height.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/loads/spring_shims.h"
#include "core/units/force.h"
#include "core/units/length.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;

const ValvePosition one_in{1, ValveKind::intake, 1};
const ValvePosition one_ex{1, ValveKind::exhaust, 1};
const ValvePosition two_in{2, ValveKind::intake, 1};

Interval in(double inches, double step) {
    return Interval::read(inches, inches, step) * Length::mm_per_inch;
}

// SP-1. Shigley, Problem 10-3, published solution (10th ed.): wire 2.5 mm, mean diameter 28.5, 13
// of 14 coils active, G 81.0 GPa, ground: 1.3142474 N/mm, solid at 35 mm, free at 162.72. At
// 100±0.5 mm the load is 1.3142474·(62.72±0.5).
TEST(InstalledHeight, MakesTheLoadsOfATextbooksSpring) {
    const SpringWire wire{2.5, 28.5, 13.0, 14.0, 81000.0, 7.85e-9};
    const auto spring = spring_from_wire(wire, SpringEnds::ground, 162.72, 120.0);
    ASSERT_TRUE(spring.ok());
    const auto found =
        installed_heights({{one_in, Interval::about(100.0, 0.5)}}, *spring, {29.5, 30.5});
    ASSERT_TRUE(found.ok());
    const InstalledSpring& valve = found->valves.at(0);
    EXPECT_NEAR(valve.seat_load_N.low, 1.3142474 * 62.22, 5e-6); // digits given
    EXPECT_NEAR(valve.seat_load_N.high, 1.3142474 * 63.22, 5e-6);
    EXPECT_NEAR(valve.open_load_N.low, 1.3142474 * 91.72, 5e-6);
    EXPECT_NEAR(valve.open_load_N.high, 1.3142474 * 93.72, 5e-6);
    EXPECT_NEAR(valve.to_bind_mm->low, 34.0, 1e-9);
    EXPECT_NEAR(valve.to_bind_mm->high, 36.0, 1e-9);
}

// A service page's spring of 1998, metric column: 340 N at 45.75 mm, 980 N at 35.55 mm; 62.7 N/mm
// from it. Heights made up; worked by hand.
TEST(InstalledHeight, SetsTheValvesOfAHeadBesideEachOther) {
    const auto spring = spring_from_two_loads({45.75, 340.0}, {35.55, 980.0});
    ASSERT_TRUE(spring.ok());
    const auto found = installed_heights({{one_in, Interval::about(46.05, 0.01)},
                                          {one_ex, Interval::about(45.75, 0.01)},
                                          {two_in, Interval::about(45.75, 0.03)}},
                                         *spring, Interval::exactly(10.2));
    ASSERT_TRUE(found.ok());
    EXPECT_NEAR(found->lowest_mm.low, 45.72, 1e-9);
    EXPECT_NEAR(found->lowest_mm.high, 45.76, 1e-9);
    EXPECT_NEAR(found->height_spread_mm.low, 0.28, 1e-9);  // 46.04 less 45.76
    EXPECT_NEAR(found->height_spread_mm.high, 0.34, 1e-9); // 46.06 less 45.72
    EXPECT_NEAR(found->valves[0].above_lowest_mm.low, 0.28, 1e-9);
    EXPECT_NEAR(found->valves[0].above_lowest_mm.high, 0.34, 1e-9);
    EXPECT_NEAR(found->valves[1].above_lowest_mm.low, 0.0, 1e-9);
    EXPECT_NEAR(found->valves[1].above_lowest_mm.high, 0.04, 1e-9); // its twin may be lower
    EXPECT_NEAR(found->valves[0].seat_load_N.middle(), 340.0 - 0.3 * 62.745, 1e-3);
    EXPECT_NEAR(found->valves[1].open_load_N.middle(), 980.0, 1e-9);
    EXPECT_NEAR(found->seat_load_spread_N.high, 0.34 * 640.0 / 10.2, 1e-9);
    EXPECT_FALSE(found->valves[0].to_bind_mm.has_value()) << "no bind height is known";
    EXPECT_EQ(found->valves[2].valve, two_in);
}

// TP-5: .060 in left before bind (common practice, no source). A height to .001 in that leaves
// .060 on the nose doesn't say whether it does.
TEST(InstalledHeight, BindRoomIsJudgedWithItsDoubt) {
    auto spring = *spring_from_rate(45.72, 500.0, 60.0);
    spring.bind_height_mm = Length::inches(1.200).in_mm();
    const auto room = [&](double height_in) {
        return *installed_heights({{one_in, in(height_in, 0.001)}}, spring, in(0.540, 0.001))
                    ->valves[0]
                    .to_bind_mm;
    };
    EXPECT_EQ(standing(room(1.800), usual_to_bind_mm()), BandStanding::may_be_below);
    EXPECT_EQ(standing(room(1.801), usual_to_bind_mm()), BandStanding::inside);
    EXPECT_EQ(standing(room(1.798), usual_to_bind_mm()), BandStanding::below);
    EXPECT_EQ(usual_to_bind_mm().source, FigureSource::common_practice);
}

// Whatever the true height is within its doubt, what the spring itself answers lies within the
// answer; and a shim as thick as `above_lowest` says brings it down to the lowest.
TEST(InstalledHeight, HoldsWhatTheSpringAnswersAtEveryHeightWithinTheDoubt) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int round = 0; round < 500; ++round) {
        ValveSpring spring;
        spring.loads = {{50.0, 300.0}, {44.0, 300.0 + 400.0 * unit(random) + 50.0}, {34.0, 1200.0}};
        spring.installed_height_mm = 50.0;
        spring.bind_height_mm = 30.0 + unit(random);
        const Interval height = Interval::about(43.0 + 5.0 * unit(random), 0.3 * unit(random));
        const Interval lift = Interval::about(9.0 + 2.0 * unit(random), 0.2 * unit(random));
        const auto found = installed_heights({{one_in, height}}, spring, lift);
        ASSERT_TRUE(found.ok());
        const InstalledSpring& valve = found->valves[0];
        spring.installed_height_mm = height.low + unit(random) * 2.0 * height.half_width();
        const double true_lift = lift.low + unit(random) * 2.0 * lift.half_width();
        const SpringAtFullLift open = at_full_lift(spring, true_lift);
        ASSERT_TRUE(valve.seat_load_N.holds(spring.seat_load_N()));
        ASSERT_TRUE(valve.open_load_N.holds(open.load_N));
        ASSERT_TRUE(valve.to_bind_mm->holds(*open.to_bind_mm));
        EXPECT_EQ(valve.above_lowest_mm, Interval::exactly(0.0));
    }
}

TEST(InstalledHeight, BadReadingsAreNamed) {
    const auto spring = *spring_from_rate(45.0, 400.0, 50.0);
    const Interval lift = Interval::exactly(11.0);
    const Interval height = Interval::exactly(45.0);
    EXPECT_EQ(installed_heights({}, spring, lift).error().code, ErrorCode::too_few_rows);
    EXPECT_EQ(installed_heights({{one_in, height}, {one_in, height}}, spring, lift).error().code,
              ErrorCode::duplicate_field);
    const auto typed_in_inches =
        installed_heights({{one_in, height}, {one_ex, Interval::exactly(0.9)}}, spring, lift);
    EXPECT_EQ(typed_in_inches.error().field, "height");
    EXPECT_EQ(typed_in_inches.error().line, 2);
    EXPECT_EQ(installed_heights({{one_in, height}}, spring, {11.0, 60.0}).error().field,
              "full_valve_lift");
    EXPECT_EQ(installed_heights({{one_in, Interval::exactly(10.0)}}, spring, lift).error().field,
              "full_valve_lift");
    EXPECT_EQ(installed_heights({{one_in, {10.5, 11.5}}}, spring, lift).error().field,
              "full_valve_lift")
        << "it may be lower than it is lifted";
    EXPECT_EQ(installed_heights({{one_in, height}}, {}, lift).error().field, "loads");
}

} // namespace
} // namespace rodway
