#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;

WrittenReadings third_rod() {
    WrittenReadings written;
    return written.write("rod_journal_diameter", "3 front vertical", "2.0998")
        .write("rod_journal_diameter", "3 rear vertical", "2.0995")
        .write("rod_bearing_bore", "3 vertical", "2.1020")
        .write("rod_housing_bore", "3 front vertical", "2.2252")
        .write("rod_housing_bore", "3 front horizontal", "2.2248");
}

// By hand.
TEST(RodBearingsSheet, ClearanceTaperAndOutOfRoundFollow) {
    const FilledSheet sheet("rod_bearings", third_rod());
    expect_figure(sheet.figure("rod_bearing_clearance", "3"), 0.00235, 0.00025, in);
    expect_figure(sheet.figure("rod_journal_taper", "3"), 0.0003, 0.0001, in);
    expect_figure(sheet.figure("rod_housing_out_of_round", "3"), 0.0004, 0.0001, in);
    EXPECT_FALSE(sheet.figure("rod_bearing_clearance", "4"));
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

// The question builders ask: plastic strip .0015, gauge .0025. Both are kept.
TEST(RodBearingsSheet, AStripBesideTheGaugeIsASecondOpinion) {
    WrittenReadings written;
    written.write("rod_journal_diameter", "3", "2.1000")
        .write("rod_bearing_bore", "3", "2.1025")
        .write("rod_bearing_clearance", "3", ".0015")
        .write("rod_bearing_clearance_method", "3", "plastic strip");
    const FilledSheet sheet("rod_bearings", written);
    ASSERT_THAT(sheet.findings(), SizeIs(1));
    EXPECT_EQ(sheet.findings()[0].what, PointedOut::methods_differ);
    EXPECT_NEAR(sheet.findings()[0].numbers[0] / in, 0.0015, 1e-9);
    EXPECT_NEAR(sheet.findings()[0].numbers[1] / in, 0.0024, 1e-9);
    expect_figure(sheet.figure("rod_bearing_clearance", "3"), 0.0025, 0.0001, in);
    EXPECT_NEAR(sheet.box("rod_bearing_clearance", "3")->taken->range()->middle() / in, 0.0015,
                1e-9);
    written.write("rod_bearing_clearance_method", "3", "bore gauge");
    EXPECT_EQ(FilledSheet("rod_bearings", written).findings()[0].what, PointedOut::stated_differs);
    written.write("rod_bearing_clearance", "3", ".0025");
    EXPECT_THAT(FilledSheet("rod_bearings", written).findings(), IsEmpty());
}

// .001 in for an inch of shaft, .0005 more for rods: common practice, no source.
TEST(RodBearingsSheet, TheUsualClearanceGoesByThePin) {
    const auto verdict = [](const char* clearance) {
        WrittenReadings written;
        written.write("rod_journal_diameter", "3", "2.1000")
            .write("rod_bearing_clearance", "3", clearance);
        return FilledSheet("rod_bearings", written).verdict("rod_bearing_clearance", "3");
    };
    EXPECT_EQ(verdict(".0024"), SheetVerdict::passed);
    EXPECT_EQ(verdict(".0026"), SheetVerdict::too_close);
    EXPECT_EQ(verdict(".0019"), SheetVerdict::failed);
    EXPECT_EQ(verdict(".0030"), SheetVerdict::failed);
}

TEST(RodBearingsSheet, ABigEndOffByANumberOfTheSleeveIsPointedOut) {
    WrittenReadings written;
    for (const int cylinder : {1, 2, 3, 4}) {
        written.write("rod_housing_bore", std::to_string(cylinder) + " front vertical",
                      cylinder == 2 ? "2.3250" : "2.2250");
    }
    const FilledSheet sheet("rod_bearings", written);
    ASSERT_THAT(sheet.findings(), SizeIs(1));
    EXPECT_EQ(sheet.findings()[0].what, PointedOut::misread_by_a_turn);
    EXPECT_EQ(sheet.findings()[0].quantity, "rod_housing_bore");
    EXPECT_THAT(sheet.findings()[0].positions, ElementsAre("2 front vertical"));
}

} // namespace
} // namespace rodway
