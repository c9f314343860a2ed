#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/demo_set_ups.h"
#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

// 5 to 10 % fresh, 20 % still usable: common practice.
TEST(AsFoundSheet, LeakdownIsFreshUsableOrWorn) {
    WrittenReadings written;
    written.write("as_found_leakdown", "1", "8")
        .write("as_found_leakdown", "2", "12")
        .write("as_found_leakdown", "3", "25")
        .write("as_found_leakdown", "4", "10");
    const WorkedSheet sheet("as_found", written);
    EXPECT_EQ(sheet.verdict("as_found_leakdown", "1"), SheetVerdict::passed);
    EXPECT_EQ(sheet.verdict("as_found_leakdown", "2"), SheetVerdict::serviceable);
    EXPECT_EQ(sheet.verdict("as_found_leakdown", "3"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("as_found_leakdown", "4"), SheetVerdict::serviceable);
    EXPECT_NEAR(sheet.middle("leakdown_spread"), 17.0, 1e-9);
    EXPECT_NEAR(sheet.middle("leakdown_above_least", "3"), 17.0, 1e-9);
    // The tightest beside the next tightest.
    EXPECT_NEAR(sheet.middle("leakdown_above_least", "1"), -2.0, 1e-9);
}

WrittenReadings compression(const char* third, const char* fourth) {
    WrittenReadings written;
    written.write("as_found_compression", "1", "150 psi")
        .write("as_found_compression", "2", "148 psi")
        .write("as_found_compression", "3", third)
        .write("as_found_compression", "4", fourth)
        .write("as_found_compression", "5", "149 psi")
        .write("as_found_compression", "6", "150 psi");
    return written;
}

// 100 of 150 is 66.7 %, below 75 % (from memory); with oil 130, 30 % more.
TEST(AsFoundSheet, CompressionIsJudgedBesideTheHighest) {
    WrittenReadings written = compression("100 psi", "147 psi");
    written.write("as_found_compression_wet", "3", "130 psi");
    const WorkedSheet sheet("as_found", written);
    EXPECT_NEAR(sheet.middle("compression_share", "3"), 66.7, 0.05);
    EXPECT_NEAR(sheet.middle("compression_share", "1"), 100.0, 0.01);
    EXPECT_EQ(sheet.verdict("compression_share", "3"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("compression_share", "4"), SheetVerdict::passed);
    EXPECT_NEAR(sheet.middle("compression_wet_gain", "3"), 30.0, 0.05);
    EXPECT_FALSE(sheet.figure("compression_wet_gain", "4"));
    EXPECT_THAT(sheet.found(PointedOut::low_together), IsEmpty());
}

// Neighbours that are low together point to the gasket between them; who is whose neighbour only a
// set-up knows.
TEST(AsFoundSheet, TwoLowNeighboursArePointedOut) {
    const Engine six = demo_engine("inline-six");
    const EnginePlaces places = places_on(six);
    const WrittenReadings together = compression("100 psi", "95 psi");
    const WorkedSheet sheet("as_found", together, &six, &places);
    const auto found = sheet.found(PointedOut::low_together);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("3", "4"));
    EXPECT_THAT(WorkedSheet("as_found", together).found(PointedOut::low_together), IsEmpty());
    const WorkedSheet one_low("as_found", compression("100 psi", "147 psi"), &six, &places);
    EXPECT_THAT(one_low.found(PointedOut::low_together), IsEmpty());
}

TEST(AsFoundSheet, OneCylinderAloneIsComparedWithNothing) {
    WrittenReadings written;
    written.write("as_found_compression", "1", "150 psi").write("as_found_leakdown", "1", "8");
    const WorkedSheet sheet("as_found", written);
    EXPECT_FALSE(sheet.figure("compression_share", "1"));
    EXPECT_FALSE(sheet.figure("leakdown_above_least", "1"));
}

} // namespace
} // namespace rodway
