#include "core/tubes/tube_leak.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

LeakTest test_of(double start, double end) {
    return {Interval::about(start, 0.5), Interval::about(end, 0.5), {9.5, 10.5}};
}

// Worked by hand: 12±1 kPa in 9.5 to 10.5 minutes.
TEST(TubeLeak, IsALossAMinuteWithItsDoubt) {
    const auto rate = leak_rate(test_of(100.0, 88.0), 0.2);
    ASSERT_TRUE(rate.ok());
    EXPECT_NEAR(rate->lost_kPa.low, 11.0, 1e-12);
    EXPECT_NEAR(rate->lost_kPa_per_min.low, 11.0 / 10.5, 1e-12);
    EXPECT_NEAR(rate->lost_kPa_per_min.high, 13.0 / 9.5, 1e-12);
    EXPECT_EQ(rate->finding, LeakFinding::leaked);
    EXPECT_EQ(leak_rate(test_of(100.0, 100.0), 0.2)->finding, LeakFinding::held);
    EXPECT_EQ(leak_rate(test_of(100.0, 98.0), 0.2)->finding, LeakFinding::undecided);
    EXPECT_EQ(leak_rate(test_of(100.0, 102.0), 0.2)->finding, LeakFinding::held) << "it warmed";
}

TEST(TubeLeak, TwoTestsTellSinceWhen) {
    const auto held = *leak_rate(test_of(100.0, 100.0), 0.2);
    const auto leaked = *leak_rate(test_of(100.0, 80.0), 0.2);
    const auto open = *leak_rate(test_of(100.0, 98.0), 0.2);
    EXPECT_EQ(tube_leak(held, held), TubeLeakFinding::held);
    EXPECT_EQ(tube_leak({}, held), TubeLeakFinding::held);
    EXPECT_EQ(tube_leak(leaked, held), TubeLeakFinding::held);
    EXPECT_EQ(tube_leak(held, leaked), TubeLeakFinding::leaks_since_relief);
    EXPECT_EQ(tube_leak(leaked, leaked), TubeLeakFinding::leaked_from_the_start);
    EXPECT_EQ(tube_leak({}, leaked), TubeLeakFinding::leaks_nothing_before);
    EXPECT_EQ(tube_leak(open, leaked), TubeLeakFinding::leaks_nothing_before);
    EXPECT_EQ(tube_leak(held, {}), TubeLeakFinding::not_tested_after);
    EXPECT_EQ(tube_leak(held, open), TubeLeakFinding::undecided);
}

TEST(TubeLeak, BadReadingsAreNamed) {
    LeakTest test = test_of(100.0, 88.0);
    test.minutes = {0.0, 10.0};
    EXPECT_EQ(leak_rate(test, 0.2).error().field, "minutes");
    test = test_of(1001.0, 88.0);
    EXPECT_EQ(leak_rate(test, 0.2).error().field, "start");
    test = test_of(100.0, std::nan(""));
    EXPECT_EQ(leak_rate(test, 0.2).error().field, "end");
    EXPECT_EQ(leak_rate(test_of(100.0, 88.0), -0.1).error().field, "allowed");
}

} // namespace
} // namespace rodway
