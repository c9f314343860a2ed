#include "core/break_in/minutes_by_speed.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

Interval exactly(double value) {
    return Interval::exactly(value);
}
const BreakInPlan plan = usual_break_in_plan();

// 2000 to 3000 rpm for 20 minutes (common practice, no source). The log is made up; worked by hand.
TEST(MinutesBySpeed, CountsTheBandTheIdlingAndWhatIsMissing) {
    const auto found = minutes_by_speed({{exactly(2200.0), exactly(6.0)},
                                         {{2000.0, 3000.0}, exactly(5.0)},
                                         {exactly(900.0), exactly(1.0)},
                                         {exactly(1000.0), exactly(2.0)},
                                         {exactly(1500.0), exactly(1.0)},
                                         {exactly(900.0), exactly(2.5)},
                                         {exactly(3500.0), exactly(4.0)}},
                                        plan);
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->total_min, exactly(21.5));
    EXPECT_EQ(found->in_band_min, exactly(11.0));
    EXPECT_EQ(found->missing_min, exactly(9.0));
    EXPECT_EQ(found->standing, BreakInStanding::not_done);
    EXPECT_EQ(found->longest_idle_min, exactly(3.0)) << "two stretches without a break";
    EXPECT_EQ(*found->speeds_in_band_rpm, (Interval{2000.0, 3000.0}));
}

TEST(MinutesBySpeed, AStretchThatOnlyTouchesTheBandLeavesItOpen) {
    const auto found = minutes_by_speed(
        {{exactly(2500.0), exactly(15.0)}, {{1000.0, 2500.0}, exactly(6.0)}}, plan);
    EXPECT_EQ(found->in_band_min, (Interval{15.0, 21.0}));
    EXPECT_EQ(found->missing_min, (Interval{0.0, 5.0}));
    EXPECT_EQ(found->standing, BreakInStanding::undecided);
    EXPECT_EQ(found->longest_idle_min, (Interval{0.0, 6.0}));
    EXPECT_EQ(*found->speeds_in_band_rpm, exactly(2500.0));
    EXPECT_EQ(minutes_by_speed({{exactly(800.0), {2.0, 3.0}}}, plan)->longest_idle_min,
              (Interval{2.0, 3.0}));
    // Minutes by the clock, give or take one.
    const auto clock = minutes_by_speed({{exactly(2500.0), {19.0, 21.0}}}, plan);
    EXPECT_EQ(clock->standing, BreakInStanding::undecided);
    EXPECT_EQ(minutes_by_speed({{exactly(2500.0), {20.0, 22.0}}}, plan)->standing,
              BreakInStanding::done);
}

TEST(MinutesBySpeed, AnotherPlanCountsOtherwise) {
    const BreakInPlan makers{1800.0, 2400.0, 10.0, 1000.0, FigureSource::makers_instructions};
    const std::vector<SpeedStretch> log{{exactly(1900.0), exactly(10.0)},
                                        {exactly(1100.0), exactly(3.0)}};
    EXPECT_EQ(minutes_by_speed(log, makers)->standing, BreakInStanding::done);
    EXPECT_EQ(minutes_by_speed(log, makers)->longest_idle_min, exactly(0.0));
    EXPECT_EQ(minutes_by_speed(log, plan)->standing, BreakInStanding::not_done);
    EXPECT_EQ(minutes_by_speed(log, plan)->longest_idle_min, exactly(3.0));
    EXPECT_FALSE(minutes_by_speed(log, plan)->speeds_in_band_rpm.has_value());
    EXPECT_EQ(plan.source, FigureSource::common_practice);
}

TEST(MinutesBySpeed, BadInputIsNamed) {
    EXPECT_EQ(minutes_by_speed({}, plan).error().code, ErrorCode::too_few_rows);
    const SpeedStretch good{exactly(2500.0), exactly(1.0)};
    const auto bad = minutes_by_speed({good, {{3000.0, 2000.0}, exactly(1.0)}}, plan);
    EXPECT_EQ(bad.error().code, ErrorCode::order_wrong);
    EXPECT_EQ(bad.error().line, 2);
    EXPECT_EQ(minutes_by_speed({{exactly(2500.0), exactly(std::nan(""))}}, plan).error().field,
              "minutes");
    BreakInPlan wrong = plan;
    wrong.low_rpm = -1.0;
    EXPECT_EQ(minutes_by_speed({good}, wrong).error().field, "plan/low");
    wrong = plan;
    wrong.high_rpm = 1000.0;
    EXPECT_EQ(minutes_by_speed({good}, wrong).error().field, "plan/high");
    wrong = plan;
    wrong.idle_below_rpm = 2500.0;
    EXPECT_EQ(minutes_by_speed({good}, wrong).error().field, "plan/idle_below");
    wrong = plan;
    wrong.minutes = -1.0;
    EXPECT_EQ(minutes_by_speed({good}, wrong).error().field, "plan/minutes");
}

} // namespace
} // namespace rodway
