#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double minute_s = 60.0;

// Rules are common practice: oil pressure within 10 s; at least 20 psi, at most 220 degF (from
// memory).
TEST(StartSheet, ABrokenStopRuleIsPointedOutWithItsLimit) {
    WrittenReadings written;
    written.write("oil_pressure_after", "", "6 s")
        .write("first_start_oil_pressure", "", "15 psi")
        .write("first_start_temperature", "", "190");
    const WorkedSheet sheet("start_and_break_in", written);
    const auto found = sheet.found(PointedOut::stop_rule);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].quantity, "first_start_oil_pressure");
    EXPECT_EQ(found[0].dimension, Dimension::pressure);
    ASSERT_THAT(found[0].numbers, SizeIs(2));
    EXPECT_NEAR(found[0].numbers[0], 15.0 * 6.894757, 1e-3);
    EXPECT_NEAR(found[0].numbers[1], 20.0 * 6.894757, 0.1);
    EXPECT_EQ(sheet.verdict("first_start_oil_pressure"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("oil_pressure_after"), SheetVerdict::passed);
    EXPECT_EQ(sheet.verdict("first_start_temperature"), SheetVerdict::passed);
}

TEST(StartSheet, TooLateAndTooHotAreBrokenAtTheirUpperEnd) {
    WrittenReadings written;
    written.write("oil_pressure_after", "", "15 s").write("first_start_temperature", "", "235");
    const auto found = WorkedSheet("start_and_break_in", written).found(PointedOut::stop_rule);
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_THAT(found[0].numbers, ElementsAre(15.0, 10.0));
    EXPECT_NEAR(found[1].numbers[1], 104.4, 0.1);
}

TEST(StartSheet, ADryRockerAndAKnockStopTheEngineWithoutNumbers) {
    WrittenReadings written;
    written.write("oil_at_rocker", "1I", "yes")
        .write("oil_at_rocker", "3E", "no")
        .write("oil_at_rocker", "4E", "yes")
        .write("start_knock", "", "yes")
        .write("start_leak", "", "no");
    const auto found = WorkedSheet("start_and_break_in", written).found(PointedOut::stop_rule);
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_EQ(found[0].quantity, "oil_at_rocker");
    EXPECT_THAT(found[0].positions, ElementsAre("3E"));
    EXPECT_THAT(found[0].numbers, IsEmpty());
    EXPECT_EQ(found[1].quantity, "start_knock");
}

TEST(StartSheet, WhatNobodyLookedAtBreaksNoRuleAndKeepsNone) {
    const WorkedSheet sheet("start_and_break_in", {});
    EXPECT_THAT(sheet.findings(), IsEmpty());
    EXPECT_FALSE(sheet.figure("break_in_in_band"));
    EXPECT_FALSE(sheet.figure("break_in_missing"));
    EXPECT_EQ(sheet.verdict("first_start_oil_pressure"), SheetVerdict::no_number);
}

// 10 and 15 min inside 2000 to 3000 rpm, 5 min idling: 25 of 20 (common practice). A stretch
// without a speed doesn't count.
TEST(StartSheet, MinutesCountBySpeed) {
    WrittenReadings written;
    written.write("break_in_time", "2026-03-01", "10.0")
        .write("break_in_speed", "2026-03-01", "2000-2500")
        .write("break_in_time", "2026-03-01 2", "15.0")
        .write("break_in_speed", "2026-03-01 2", "2200-2800")
        .write("break_in_time", "2026-03-01 3", "5.0")
        .write("break_in_speed", "2026-03-01 3", "800-1000")
        .write("break_in_time", "2026-03-01 4", "60.0");
    const WorkedSheet sheet("start_and_break_in", written);
    EXPECT_NEAR(sheet.middle("break_in_total"), 30.0 * minute_s, 1e-6);
    EXPECT_NEAR(sheet.middle("break_in_in_band"), 25.0 * minute_s, 1e-6);
    EXPECT_NEAR(sheet.middle("break_in_longest_idle"), 5.0 * minute_s, 1e-6);
    EXPECT_NEAR(sheet.middle("break_in_missing"), 0.0, 1e-6);
    EXPECT_EQ(sheet.verdict("break_in_in_band"), SheetVerdict::passed);
}

// Idling 3 min, then 15 in the band, then 4 idling: the tenth stretch is behind the third, so the
// idling didn't go on for 7.
TEST(StartSheet, StretchesStandInTheOrderInWhichTheyWereRun) {
    WrittenReadings written;
    written.write("break_in_time", "2026-03-01 10", "4.0")
        .write("break_in_speed", "2026-03-01 10", "900-1000")
        .write("break_in_time", "2026-03-01 2", "3.0")
        .write("break_in_speed", "2026-03-01 2", "900-1000")
        .write("break_in_time", "2026-03-01 3", "15.0")
        .write("break_in_speed", "2026-03-01 3", "2100-2900");
    const WorkedSheet sheet("start_and_break_in", written);
    EXPECT_NEAR(sheet.middle("break_in_longest_idle"), 4.0 * minute_s, 1e-6);
    EXPECT_NEAR(sheet.middle("break_in_missing"), 5.0 * minute_s, 1e-6);
    EXPECT_EQ(sheet.verdict("break_in_in_band"), SheetVerdict::failed);
}

} // namespace
} // namespace rodway
