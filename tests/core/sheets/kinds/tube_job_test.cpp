#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

// Invented round sizes, expected by hand.
TEST(TubeJobSheet, SizeTaperAndOvalFollowFromTheBores) {
    WrittenReadings written;
    written.write("tube_bore", "3I top along", ".500")
        .write("tube_bore", "3I top across", ".502")
        .write("tube_bore", "3I bottom along", ".497")
        .write("tube_bore", "3I bottom across", ".498");
    const WorkedSheet sheet("tube_job", written);
    EXPECT_NEAR(sheet.middle("tube_bore_least", "3I"), 497.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("tube_taper_along", "3I"), 3.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("tube_taper_across", "3I"), 4.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("tube_oval", "3I"), 2.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.figure("tube_taper_along", "3I")->half_width(), 1.0 * thou, 1e-9);
}

TEST(TubeJobSheet, ABoreWithoutDepthHasNoTaper) {
    WrittenReadings written;
    written.write("tube_bore", "3I", ".500");
    const WorkedSheet sheet("tube_job", written);
    EXPECT_NEAR(sheet.middle("tube_bore_least", "3I"), 500.0 * thou, 1e-9);
    EXPECT_FALSE(sheet.figure("tube_taper_along", "3I"));
}

// Section (.630 - .490)/2 = .070, room (.600 - .500)/2 = .050: .020 of .070 is squeezed, 28.6 %.
TEST(TubeJobSheet, TheSealsSqueezeIsOfItsSection) {
    WrittenReadings written;
    written.write("tube_outside", "3I", ".500")
        .write("tube_housing_bore", "3I", ".600")
        .write("tube_seal_inside", "3I", ".490")
        .write("tube_seal_outside", "3I", ".630");
    WorkedSheet sheet("tube_job", written);
    EXPECT_NEAR(sheet.middle("tube_seal_squeeze", "3I"), 28.57, 0.1);
    EXPECT_EQ(sheet.verdict("tube_seal_squeeze", "3I"), SheetVerdict::passed);
    written.write("tube_housing_bore", "3I", ".650");
    sheet = WorkedSheet("tube_job", written);
    EXPECT_EQ(sheet.verdict("tube_seal_squeeze", "3I"), SheetVerdict::failed);
}

TEST(TubeJobSheet, TheWallLeftIsWhatTheReliefDidNotTake) {
    WrittenReadings written;
    written.write("tube_wall_before", "3I", ".060").write("tube_relieved_by", "3I", ".020");
    EXPECT_NEAR(WorkedSheet("tube_job", written).middle("tube_wall_left", "3I"), 40.0 * thou, 1e-9);
    written.write("tube_wall_left", "3I", ".040");
    EXPECT_THAT(WorkedSheet("tube_job", written).findings(), IsEmpty());
    written.write("tube_wall_left", "3I", ".030");
    EXPECT_THAT(WorkedSheet("tube_job", written).found(PointedOut::stated_differs), SizeIs(1));
    WrittenReadings not_relieved;
    not_relieved.write("tube_wall_before", "3I", ".060");
    EXPECT_FALSE(WorkedSheet("tube_job", not_relieved).figure("tube_wall_left", "3I"));
}

// (.625 - .500)/2 - .010 - .010 = .0425; a bore whose offset nobody measured says nothing.
TEST(TubeJobSheet, TheWallComesFromDiametersOnlyWithTheirOffset) {
    WrittenReadings written;
    written.write("tube_outside", "3I", ".625")
        .write("tube_bore", "3I", ".500")
        .write("tube_relieved_by", "3I", ".010");
    EXPECT_FALSE(WorkedSheet("tube_job", written).figure("tube_wall_left", "3I"));
    written.write("tube_bore_off_centre", "3I", ".010");
    EXPECT_NEAR(WorkedSheet("tube_job", written).middle("tube_wall_left", "3I"), 42.5 * thou, 1e-9);
}

WrittenReadings leak_tests(const char* end_before, const char* end_after) {
    WrittenReadings written;
    written.write("leak_start_before_relief", "3I", "15.0 psi")
        .write("leak_end_before_relief", "3I", end_before)
        .write("leak_time_before_relief", "3I", "10 min")
        .write("leak_start_after_relief", "3I", "15.0 psi")
        .write("leak_end_after_relief", "3I", end_after)
        .write("leak_time_after_relief", "3I", "10 min")
        .write("leak_rate_allowed", "", ".20");
    return written;
}

// 3 psi in 10 min is .3 a minute.
TEST(TubeJobSheet, ATubeThatLeaksSinceItsReliefIsPointedOut) {
    const WorkedSheet sheet("tube_job", leak_tests("15.0", "12.0"));
    EXPECT_NEAR(sheet.middle("leak_rate_after_relief", "3I"), 0.30, 0.005);
    EXPECT_TRUE(sheet.figure("leak_rate_before_relief", "3I")->holds(0.0));
    const auto found = sheet.found(PointedOut::worse_than_before);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_NEAR(found[0].numbers[1], 0.30, 0.005);
    EXPECT_EQ(found[0].dimension, Dimension::none);
}

TEST(TubeJobSheet, ATubeThatLeakedBeforeOrHoldsAfterIsNot) {
    EXPECT_THAT(WorkedSheet("tube_job", leak_tests("12.0", "12.0")).findings(), IsEmpty());
    EXPECT_THAT(WorkedSheet("tube_job", leak_tests("15.0", "14.9")).findings(), IsEmpty());
    WrittenReadings no_figure = leak_tests("15.0", "12.0");
    no_figure.write("leak_rate_allowed", "", "n/m");
    EXPECT_THAT(WorkedSheet("tube_job", no_figure).findings(), IsEmpty());
}

} // namespace
} // namespace rodway
