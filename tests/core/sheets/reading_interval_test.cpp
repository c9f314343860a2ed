#include "core/sheets/reading_interval.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <limits>
#include <random>
#include <vector>

namespace rodway {
namespace {

// JCGM 100:2008, F.2.2.1: to a step, a value is half a step either side. TU-11: step .0001 in over
// √12 is 2.886751e-5 in; ±.0005 in, rectangular, over √3 is 2.886751e-4 in.
TEST(Interval, AStepIsHalfEitherSideAndAnUncertainty) {
    const auto reading = Interval::around(4.0005, 0.0001);
    EXPECT_NEAR(reading.low, 4.00045, 1e-12);
    EXPECT_NEAR(reading.high, 4.00055, 1e-12);
    EXPECT_NEAR(reading.standard_uncertainty(), 2.886751e-5, 5e-12);
    EXPECT_NEAR((Interval{-0.0005, 0.0005}.standard_uncertainty()), 2.886751e-4, 5e-11);
}

TEST(Interval, ComesFromAReadingAsItWasTyped) {
    ReadingValue value;
    EXPECT_FALSE(interval_of(value).has_value()); // blank is not zero
    value.said = Said::number;
    value.low = value.high = 10.0;
    value.resolution = 0.5;
    EXPECT_EQ(*interval_of(value), (Interval{9.75, 10.25}));
    value.firmness = Firmness::about;
    EXPECT_EQ(*interval_of(value), (Interval{9.5, 10.5}));
    value.firmness = Firmness::below;
    EXPECT_FALSE(interval_of(value).has_value());
    value.firmness = Firmness::plain;
    value.high = 12.0;
    EXPECT_EQ(*interval_of(value), (Interval{10.0, 12.0}));
    value.said = Said::fine; // "ok" has no number
    EXPECT_FALSE(interval_of(value).has_value());
}

// TU-4: hole 25.000 to 25.021, shaft 24.987 to 25.000: clearance 0 to 34 µm; TU-3: 50.000 to 50.025
// in 49.975 to 49.991: 9 to 50 µm (two fit calculators' pages, from ISO 286).
TEST(Interval, DifferencesAreTakenAtTheirWorst) {
    const Interval loose = Interval{25.000, 25.021} - Interval{24.987, 25.000};
    EXPECT_NEAR(loose.low, 0.0, 1e-12);
    EXPECT_NEAR(loose.high, 0.034, 1e-12);
    const Interval close = Interval{50.000, 50.025} - Interval{49.975, 49.991};
    EXPECT_NEAR(close.low, 0.009, 1e-12);
    EXPECT_NEAR(close.high, 0.050, 1e-12);
}

// Slow twin: values drawn from the intervals, ends most of all.
TEST(Interval, SpreadHoldsEveryValueTheReadingsAllow) {
    constexpr std::uint64_t seed = 20261203;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int round = 0; round < 200; ++round) {
        std::vector<Interval> values(2 + random() % 3);
        for (Interval& value : values) {
            value = Interval::around(unit(random), unit(random));
        }
        const Interval spread = *reading_spread(values);
        double least = std::numeric_limits<double>::infinity();
        double most = 0.0;
        // All ends, and the middle ground where all may meet.
        const auto corners = static_cast<unsigned>(1u << values.size());
        double meeting = 0.0;
        for (const Interval& value : values) {
            meeting = std::max(meeting, value.low);
        }
        for (unsigned corner = 0; corner < 2 * corners; ++corner) {
            double low = std::numeric_limits<double>::infinity();
            double high = -low;
            for (std::size_t at = 0; at < values.size(); ++at) {
                double value = (corner >> at & 1u) != 0 ? values[at].high : values[at].low;
                if (corner >= corners) {
                    value = std::clamp(meeting, values[at].low, values[at].high);
                }
                low = std::min(low, value);
                high = std::max(high, value);
            }
            least = std::min(least, high - low);
            most = std::max(most, high - low);
        }
        EXPECT_NEAR(spread.low, least, 1e-12);
        EXPECT_NEAR(spread.high, most, 1e-12);
    }
    // One wide reading is not a spread by itself.
    const Interval two[] = {{0.0, 10.0}, {5.0, 5.0}};
    EXPECT_EQ(*reading_spread(two), (Interval{0.0, 5.0}));
    EXPECT_FALSE(reading_spread(std::vector<Interval>{{1.0, 2.0}}).has_value());
}

TEST(Interval, WrongEndsAreNamed) {
    const Limits limits{0.0, 10.0, "mm"};
    EXPECT_FALSE(wrong_interval("x", {1.0, 1.0}, limits).has_value());
    EXPECT_EQ(wrong_interval("x", {2.0, 1.0}, limits)->code, ErrorCode::out_of_range);
    EXPECT_EQ(wrong_interval("x", {2.0, 11.0}, limits, 4)->line, 4);
    EXPECT_EQ(wrong_interval("x", {-1.0, 1.0}, limits)->value, "-1");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(wrong_interval("x", {1.0, nan}, limits)->code, ErrorCode::not_a_number);
}

} // namespace
} // namespace rodway
