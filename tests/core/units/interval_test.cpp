#include "core/units/interval.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <iostream>
#include <limits>
#include <random>

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;
constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();

// JCGM 100:2008, F.2.2.1: a display whose last digit steps by d leaves ±d/2.
TEST(Interval, AReadingLeavesHalfAStepEitherWay) {
    const Interval read = Interval::read(0.25, 0.25, 0.5);
    EXPECT_EQ(read, (Interval{0.0, 0.5}));
    EXPECT_EQ(read.middle(), 0.25);
    EXPECT_EQ(read.half_width(), 0.25);
    // An interval that was typed stands as it is.
    EXPECT_EQ(Interval::read(1.0, 2.0, 0.5), (Interval{1.0, 2.0}));
    EXPECT_EQ(Interval::read(3.0, 3.0, 0.0), Interval::exactly(3.0));
}

// Shigley's Mechanical Engineering Design, ch. 1, the shouldered screw (from memory, recomputed):
// 1.750±0.003 less 0.750±0.001, 0.120±0.005 and 0.875±0.001 in leave 0.005±0.010 at worst.
TEST(Interval, AddsAStackAtItsWorst) {
    const Interval gap = Interval::about(1.750, 0.003) - Interval::about(0.750, 0.001) -
                         Interval::about(0.120, 0.005) - Interval::about(0.875, 0.001);
    EXPECT_NEAR(gap.middle(), 0.005, 1e-12);
    EXPECT_NEAR(gap.half_width(), 0.010, 1e-12);
}

// A public page's stack: 20.0±0.1 less 15.0±0.05, 4.8±0.08 and 0.2±0.02 mm leave 0.0±0.25.
TEST(Interval, AddsAMetricStackAtItsWorst) {
    const Interval gap =
        Interval::about(20.0, 0.1) -
        (Interval::about(15.0, 0.05) + Interval::about(4.8, 0.08) + Interval::about(0.2, 0.02));
    EXPECT_NEAR(gap.low, -0.25, 1e-12);
    EXPECT_NEAR(gap.high, 0.25, 1e-12);
}

// ISO 286-2, H7/g6 at 50 mm and H7/h6 at 25 mm, from two public tables: clearances of 9 to 50 and
// of 0 to 34 micrometres.
TEST(Interval, AHoleLessAShaftIsTheirClearance) {
    const Interval sliding = Interval{50.000, 50.025} - Interval{49.975, 49.991};
    EXPECT_NEAR(sliding.low, 0.009, 1e-12);
    EXPECT_NEAR(sliding.high, 0.050, 1e-12);
    const Interval close = Interval{25.000, 25.021} - Interval{24.987, 25.000};
    EXPECT_NEAR(close.low, 0.0, 1e-12);
    EXPECT_NEAR(close.high, 0.034, 1e-12);
}

/// A value of the interval, its ends among them.
double within(std::mt19937_64& random, const Interval& interval) {
    const double share = std::uniform_real_distribution<double>(-0.2, 1.2)(random);
    return interval.low + (interval.high - interval.low) * std::clamp(share, 0.0, 1.0);
}

Interval any_interval(std::mt19937_64& random) {
    std::uniform_real_distribution<double> place(-3.0, 3.0);
    return Interval::about(place(random), std::abs(place(random)) / 3.0);
}

// Nothing that the inputs allow lies outside the answer, and its ends are reached.
TEST(Interval, HoldsAllThatItsInputsAllowAndNoMore) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    for (int round = 0; round < 300; ++round) {
        const Interval a = any_interval(random);
        const Interval b = any_interval(random);
        const double factor = any_interval(random).middle();
        const std::pair<Interval, std::function<double(double, double)>> cases[] = {
            {a + b, [](double x, double y) { return x + y; }},
            {a - b, [](double x, double y) { return x - y; }},
            {-a, [](double x, double) { return -x; }},
            {a * factor, [&](double x, double) { return x * factor; }},
            {a / factor, [&](double x, double) { return x / factor; }},
            {product(a, b), [](double x, double y) { return x * y; }},
            {magnitude(a), [](double x, double) { return std::abs(x); }},
            {not_below_zero(a), [](double x, double) { return std::max(x, 0.0); }},
        };
        for (const auto& [answer, of] : cases) {
            double least = 1e9;
            double most = -1e9;
            for (int draw = 0; draw < 400; ++draw) {
                const double value = of(within(random, a), within(random, b));
                least = std::min(least, value);
                most = std::max(most, value);
                ASSERT_GE(value, answer.low - 1e-12);
                ASSERT_LE(value, answer.high + 1e-12);
            }
            const double width = answer.high - answer.low;
            ASSERT_LT(least - answer.low, 0.1 * width + 1e-12);
            ASSERT_LT(answer.high - most, 0.1 * width + 1e-12);
        }
    }
}

TEST(Interval, DividesUnlessTheDivisorMayBeZero) {
    EXPECT_EQ(*quotient({1.0, 2.0}, {4.0, 8.0}), (Interval{0.125, 0.5}));
    EXPECT_EQ(*quotient({1.0, 2.0}, {-8.0, -4.0}), (Interval{-0.5, -0.125}));
    EXPECT_FALSE(quotient({1.0, 2.0}, {-1.0, 1.0}).has_value());
    EXPECT_FALSE(quotient({1.0, 2.0}, {0.0, 1.0}).has_value());
}

// Slow twin: many draws of all values at once.
TEST(Interval, LeastGreatestMeanAndSpreadOfSeveral) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    for (int round = 0; round < 200; ++round) {
        const std::vector<Interval> values{any_interval(random), any_interval(random),
                                           any_interval(random)};
        double least_spread = 1e9;
        double most_spread = 0.0;
        for (int draw = 0; draw < 3000; ++draw) {
            double drawn[3];
            for (std::size_t at = 0; at < 3; ++at) {
                drawn[at] = within(random, values[at]);
            }
            const auto [least, greatest] = std::minmax({drawn[0], drawn[1], drawn[2]});
            const double mean = (drawn[0] + drawn[1] + drawn[2]) / 3.0;
            ASSERT_GE(least, least_of(values).low - 1e-12);
            ASSERT_LE(least, least_of(values).high + 1e-12);
            ASSERT_GE(greatest, greatest_of(values).low - 1e-12);
            ASSERT_LE(greatest, greatest_of(values).high + 1e-12);
            ASSERT_GE(mean, mean_of(values).low - 1e-12);
            ASSERT_LE(mean, mean_of(values).high + 1e-12);
            least_spread = std::min(least_spread, greatest - least);
            most_spread = std::max(most_spread, greatest - least);
        }
        const Interval spread = spread_of(values);
        ASSERT_LE(spread.low, least_spread + 1e-12);
        ASSERT_GE(spread.high, most_spread - 1e-12);
        // A tenth of the widest: what 3000 draws of three values miss at most.
        ASSERT_NEAR(spread.low, least_spread, 0.25);
        ASSERT_NEAR(spread.high, most_spread, 0.25);
    }
    EXPECT_EQ(spread_of({{1.0, 2.0}}), Interval::exactly(0.0)) << "one doesn't differ from itself";
    EXPECT_EQ(spread_of({{1.0, 2.0}, {1.0, 2.0}}), (Interval{0.0, 1.0}));
    EXPECT_EQ(spread_of({{1.0, 2.0}, {4.0, 4.5}}), (Interval{2.0, 3.5}));
    const std::vector<Interval> three{{4.0, 5.0}, {1.0, 3.0}, {2.0, 7.0}};
    EXPECT_EQ(least_of(three), (Interval{1.0, 3.0}));
    EXPECT_EQ(greatest_of(three), (Interval{4.0, 7.0}));
    EXPECT_EQ(mean_of(three), (Interval{7.0 / 3.0, 5.0}));
}

TEST(Interval, WhatIsNoGoodIsNamed) {
    const Limits limits{0.0, 10.0, "mm"};
    const auto wrong = [&](const Interval& value) {
        return first_outside({{"first", {1.0, 2.0}, limits}, {"second", value, limits, 3}});
    };
    EXPECT_FALSE(wrong({0.0, 10.0}).has_value());
    EXPECT_EQ(wrong({2.0, 1.0})->code, ErrorCode::order_wrong);
    EXPECT_EQ(wrong({-0.1, 1.0})->code, ErrorCode::out_of_range);
    EXPECT_EQ(wrong({1.0, 10.1})->code, ErrorCode::out_of_range);
    EXPECT_EQ(wrong({1.0, nan_value})->code, ErrorCode::not_a_number);
    EXPECT_EQ(wrong({nan_value, 1.0})->code, ErrorCode::not_a_number);
    EXPECT_EQ(wrong({2.0, 1.0})->field, "second");
    EXPECT_EQ(wrong({1.0, 10.1})->line, 3);
}

} // namespace
} // namespace rodway
