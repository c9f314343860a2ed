#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

WrittenReadings set_cold() {
    WrittenReadings written;
    for (const char* valve : {"1I", "2I", "3I", "4I"}) {
        written.write("lash_cold", valve, ".018");
    }
    return written;
}

// By hand: 0, .001 and .006 more than set; .003 is worth looking into (common practice).
TEST(LashSheet, TheChangeSinceItWasSetIsJudgedNotTheSize) {
    WrittenReadings written = set_cold();
    written.write("lash_found_cold", "1I", ".018")
        .write("lash_found_cold", "2I", ".019")
        .write("lash_found_cold", "4I", ".024");
    const WorkedSheet sheet("lash", written);
    EXPECT_NEAR(sheet.middle("lash_change_cold", "2I"), 1.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("lash_change_cold", "4I"), 6.0 * thou, 1e-9);
    EXPECT_EQ(sheet.verdict("lash_change_cold", "2I"), SheetVerdict::passed);
    EXPECT_EQ(sheet.verdict("lash_change_cold", "4I"), SheetVerdict::failed);
    EXPECT_FALSE(sheet.figure("lash_change_cold", "3I"));
    EXPECT_FALSE(sheet.figure("lash_change_hot", "4I"));
    const auto found = sheet.found(PointedOut::odd_one_out);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("4I"));
}

// All opened alike: that is the engine, no single valve stands apart.
TEST(LashSheet, WhatAllValvesShareMakesNoneOdd) {
    WrittenReadings written = set_cold();
    for (const char* valve : {"1I", "2I", "3I", "4I"}) {
        written.write("lash_found_cold", valve, ".023");
    }
    const WorkedSheet sheet("lash", written);
    EXPECT_THAT(sheet.findings(), IsEmpty());
    EXPECT_EQ(sheet.verdict("lash_change_cold", "1I"), SheetVerdict::failed);
}

// Found .023, then set again to .018: the change that was found stays. A later round counts from
// the later setting.
TEST(LashSheet, SettingItAgainDoesNotWipeOutWhatWasFound) {
    WrittenReadings written = set_cold();
    written.write("lash_found_cold", "1I", ".023").write("lash_cold", "1I", ".016");
    EXPECT_NEAR(WorkedSheet("lash", written).middle("lash_change_cold", "1I"), 5.0 * thou, 1e-9);
    written.write("lash_found_cold", "1I", ".017");
    EXPECT_NEAR(WorkedSheet("lash", written).middle("lash_change_cold", "1I"), 1.0 * thou, 1e-9);
}

// The first hot figure is of the same setting; a second one says that it was set anew, hot, and
// what that left cold nobody knows.
TEST(LashSheet, ASettingAtTheOtherHeatLeavesNothingToCompareWith) {
    WrittenReadings written = set_cold();
    written.write("lash_hot", "1I", ".020").write("lash_found_cold", "1I", ".020");
    EXPECT_NEAR(WorkedSheet("lash", written).middle("lash_change_cold", "1I"), 2.0 * thou, 1e-9);
    WrittenReadings again = set_cold();
    again.write("lash_hot", "1I", ".020")
        .write("lash_hot", "1I", ".022")
        .write("lash_found_cold", "1I", ".020");
    EXPECT_FALSE(WorkedSheet("lash", again).figure("lash_change_cold", "1I"));
}

// Source: clubcobra.com/forums/1470360-post4: iron block, aluminium heads, .018 cold where .025 hot
// is wanted: .007 less. The rule of the trade for such engines is .006 less (common practice).
TEST(LashSheet, TheEnginesOwnChangeStandsBesideTheRule) {
    WrittenReadings written;
    written.write("lash_cold", "1E", ".018")
        .write("lash_hot", "1E", ".025")
        .write("lash_hot_wanted", "E", ".025")
        .write("lash_hot_wanted", "I", ".025");
    WorkedSheet sheet("lash", written);
    EXPECT_NEAR(sheet.middle("lash_cold_less_hot", "1E"), -7.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("lash_cold_by_own_change", "E"), 18.0 * thou, 1e-9);
    EXPECT_FALSE(sheet.figure("lash_cold_by_rule", "E"));
    // No intake was read cold and hot: an exhaust's change isn't its.
    EXPECT_FALSE(sheet.figure("lash_cold_by_own_change", "I"));
    written.write("engine_metals", "", "iron block aluminium heads");
    sheet = WorkedSheet("lash", written);
    EXPECT_NEAR(sheet.middle("lash_cold_by_rule", "E"), 19.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("lash_cold_by_rule", "I"), 19.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("lash_cold_by_own_change", "E"), 18.0 * thou, 1e-9);
}

} // namespace
} // namespace rodway
