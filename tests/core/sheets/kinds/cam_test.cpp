#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

// Source: pams-japan.com/diary/?p=25215: 9.41 mm calipered across the sides, whose flanks had risen
// .19 already; true lift 9.79. The two sizes themselves are invented.
TEST(CamSheet, LiftAcrossTheSidesLacksWhatBothFlanksHaveRisen) {
    WrittenReadings written;
    written.write("lobe_nose", "1I", "39.41 mm").write("base_circle", "1I", "30.00 mm");
    EXPECT_NEAR(WorkedSheet("cam", written).middle("lobe_lift", "1I"), 9.41, 1e-9);
    written.write("flank_rise_at_sides", "1I", ".19 mm").write("lobe_lift", "1I", "9.79 mm");
    const WorkedSheet sheet("cam", written);
    EXPECT_NEAR(sheet.middle("lobe_lift", "1I"), 9.79, 1e-9);
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

TEST(CamSheet, ADialThatContradictsTheCallipersIsAnotherMethod) {
    WrittenReadings written;
    written.write("lobe_nose", "1I", "39.41 mm")
        .write("base_circle", "1I", "30.00 mm")
        .write("lobe_lift", "1I", "9.79 mm");
    EXPECT_THAT(WorkedSheet("cam", written).found(PointedOut::methods_differ), SizeIs(1));
}

// Exhausts are ground otherwise than intakes: only the worn intake stands apart.
TEST(CamSheet, AWornLobeStandsApartFromItsOwnKind) {
    WrittenReadings written;
    written.write("lobe_lift", "1I", ".3000")
        .write("lobe_lift", "2I", ".3002")
        .write("lobe_lift", "3I", ".2871")
        .write("lobe_lift", "4I", ".3001")
        .write("lobe_lift", "1E", ".3100")
        .write("lobe_lift", "2E", ".3102")
        .write("lobe_lift", "3E", ".3101")
        .write("lobe_lift", "4E", ".3100");
    const auto found = WorkedSheet("cam", written).found(PointedOut::odd_one_out);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("3I"));
    EXPECT_NEAR(found[0].numbers[0], 287.1 * thou, 1e-9);
    EXPECT_NEAR(found[0].numbers[1], 300.05 * thou, 1e-9);
}

TEST(CamSheet, BearingClearanceIsBoreLessJournal) {
    WrittenReadings written;
    written.write("cam_bearing_bore", "J2", "1.8715")
        .write("cam_journal_diameter", "J2 front", "1.8690");
    const WorkedSheet sheet("cam", written);
    EXPECT_NEAR(sheet.middle("cam_bearing_clearance", "J2"), 2.5 * thou, 1e-9);
}

// .004 to .010: common practice.
TEST(CamSheet, EndPlayHasItsUsualLimits) {
    const auto verdict = [](const char* play) {
        WrittenReadings written;
        written.write("cam_end_play", "", play);
        return WorkedSheet("cam", written).verdict("cam_end_play");
    };
    EXPECT_EQ(verdict(".006"), SheetVerdict::passed);
    EXPECT_EQ(verdict(".002"), SheetVerdict::failed);
    EXPECT_EQ(verdict(".012"), SheetVerdict::failed);
}

} // namespace
} // namespace rodway
