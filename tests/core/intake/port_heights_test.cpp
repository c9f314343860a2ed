#include "core/intake/port_heights.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

using Findings = std::vector<PortFinding>;
constexpr auto front = IntakeEnd::front;
constexpr auto rear = IntakeEnd::rear;

Interval mm(double value) {
    return Interval::about(value, 0.1);
}
/// Heads at 40; the intake's ports off by so much, left front, left rear, right front, right rear.
PortHeights heights_with(double left_front, double left_rear, double right_front, double right_rear,
                         double tolerance_mm = 0.5) {
    const auto found = port_heights({{0, front, mm(40.0), mm(40.0 + left_front)},
                                     {0, rear, mm(40.0), mm(40.0 + left_rear)},
                                     {1, front, mm(40.0), mm(40.0 + right_front)},
                                     {1, rear, mm(40.0), mm(40.0 + right_rear)}},
                                    tolerance_mm);
    EXPECT_TRUE(found.ok());
    return *found;
}

// Worked by hand.
TEST(PortHeights, MismatchIsSplitIntoHeightTiltAndSides) {
    const PortHeights heights = heights_with(1.0, 2.0, 3.0, 4.4);
    ASSERT_EQ(heights.ports.size(), 4u);
    EXPECT_NEAR(heights.ports[3].mismatch_mm.low, 4.2, 1e-9);
    EXPECT_NEAR(heights.ports[3].mismatch_mm.high, 4.6, 1e-9);
    EXPECT_NEAR(heights.sides[0].mean_mm.middle(), 1.5, 1e-9);
    EXPECT_NEAR(heights.sides[0].mean_mm.half_width(), 0.2, 1e-9);
    EXPECT_NEAR(heights.sides[0].tilt_mm->middle(), -1.0, 1e-9);
    EXPECT_NEAR(heights.sides[1].tilt_mm->middle(), -1.4, 1e-9);
    EXPECT_NEAR(heights.mean_mm.middle(), 2.6, 1e-9);
    EXPECT_NEAR(heights.tilt_mm->middle(), -1.2, 1e-9);
    EXPECT_NEAR(heights.tilt_mm->half_width(), 0.4, 1e-9);
    EXPECT_NEAR(heights.sides_differ_mm->middle(), 1.5 - 3.7, 1e-9);
    EXPECT_EQ(heights.findings, (Findings{PortFinding::intake_high, PortFinding::rear_high,
                                          PortFinding::sides_differ}));
}

TEST(PortHeights, EachErrorHasItsOwnFinding) {
    EXPECT_EQ(heights_with(0.0, 0.1, -0.1, 0.0).findings, Findings{PortFinding::matched});
    EXPECT_EQ(heights_with(1.0, 1.0, 1.0, 1.0).findings, Findings{PortFinding::intake_high});
    EXPECT_EQ(heights_with(-1.0, -1.0, -1.0, -1.0).findings, Findings{PortFinding::intake_low});
    EXPECT_EQ(heights_with(1.0, -1.0, 1.0, -1.0).findings, Findings{PortFinding::front_high});
    EXPECT_EQ(heights_with(1.0, 1.0, -1.0, -1.0).findings, Findings{PortFinding::sides_differ});
    // .6 ± .2 of a tolerance of .5.
    EXPECT_EQ(heights_with(0.6, 0.6, 0.6, 0.6).findings, Findings{PortFinding::undecided});
    EXPECT_EQ(heights_with(1.0, 1.0, 0.4, 0.4).findings,
              (Findings{PortFinding::undecided})); // .7 ± .2 and .6 ± .4
}

TEST(PortHeights, WhatWasNotReadIsNotAnswered) {
    const auto one_end = port_heights({{0, front, mm(40.0), mm(41.0)}}, 0.5);
    ASSERT_TRUE(one_end.ok());
    EXPECT_FALSE(one_end->tilt_mm.has_value());
    EXPECT_FALSE(one_end->sides_differ_mm.has_value());
    EXPECT_EQ(one_end->findings, Findings{PortFinding::intake_high});
    const auto three = port_heights({{0, front, mm(40.0), mm(41.0)},
                                     {0, rear, mm(40.0), mm(41.0)},
                                     {1, rear, mm(40.0), mm(41.0)}},
                                    0.5);
    EXPECT_TRUE(three->sides[0].tilt_mm.has_value());
    EXPECT_FALSE(three->tilt_mm.has_value()) << "one side's tilt isn't the intake's";
}

TEST(PortHeights, BadReadingsAreNamed) {
    EXPECT_EQ(port_heights({}, 0.5).error().code, ErrorCode::too_few_rows);
    const auto twice =
        port_heights({{0, front, mm(40.0), mm(41.0)}, {0, front, mm(40.0), mm(41.0)}}, 0.5);
    EXPECT_EQ(twice.error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(twice.error().line, 2);
    EXPECT_EQ(port_heights({{4, front, mm(40.0), mm(41.0)}}, 0.5).error().field, "side");
    EXPECT_EQ(port_heights({{0, front, mm(501.0), mm(41.0)}}, 0.5).error().field, "head");
    EXPECT_EQ(port_heights({{0, front, mm(40.0), mm(std::nan(""))}}, 0.5).error().field, "intake");
    EXPECT_EQ(port_heights({{0, front, mm(40.0), mm(41.0)}}, -0.5).error().field, "tolerance");
}

} // namespace
} // namespace rodway
