#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// Invented round numbers: 100 lb at 1.900, 400 lb in for the inch beyond.
WrittenReadings one_spring() {
    WrittenReadings written;
    written.write("spring_load_at_height", "1I 1.900in", "100 lb")
        .write("spring_load_at_height", "1I 1.800in", "140 lb")
        .write("spring_load_at_height", "1I 1.300in", "340 lb")
        .write("spring_installed_height", "1I", "1.850")
        .write("full_valve_lift", "1I", ".500")
        .write("spring_bind_height", "1I", "1.250");
    return written;
}

// By hand: half way between 1.900 and 1.800 the load is 120 lb; open, at 1.350, 320 lb; what is
// left before bind is 1.850 - .500 - 1.250 = .100, each known to half of .001.
TEST(SpringsSheet, LoadsFollowFromTheTableAndBindFromHeightAndLift) {
    const WorkedSheet sheet("springs", one_spring());
    EXPECT_NEAR(sheet.middle("spring_seat_load", "1I"), 120.0 * N_per_pound, 1e-6);
    EXPECT_NEAR(sheet.middle("spring_open_load", "1I"), 320.0 * N_per_pound, 1e-6);
    const auto margin = sheet.figure("spring_bind_margin", "1I");
    ASSERT_TRUE(margin);
    EXPECT_NEAR(margin->low, 0.0985 * mm_per_inch, 1e-9);
    EXPECT_NEAR(margin->high, 0.1015 * mm_per_inch, 1e-9);
    EXPECT_EQ(sheet.verdict("spring_bind_margin", "1I"), SheetVerdict::passed);
    EXPECT_FALSE(sheet.figure("spring_bind_margin", "1E"));
}

// .060 (common practice, no source): .0615 passes even at its low end, .060 is too close to call.
TEST(SpringsSheet, BindIsJudgedByItsDoubt) {
    const auto verdict = [](const char* lift) {
        WrittenReadings written = one_spring();
        written.write("full_valve_lift", "1I", lift);
        return WorkedSheet("springs", written).verdict("spring_bind_margin", "1I");
    };
    EXPECT_EQ(verdict(".538"), SheetVerdict::passed);
    EXPECT_EQ(verdict(".540"), SheetVerdict::too_close);
    EXPECT_EQ(verdict(".542"), SheetVerdict::failed);
}

TEST(SpringsSheet, ATesterThatContradictsTheTableIsAnotherMethod) {
    WrittenReadings written = one_spring();
    written.write("spring_seat_load", "1I", "121 lb");
    EXPECT_THAT(WorkedSheet("springs", written).findings(), IsEmpty());
    written.write("spring_seat_load", "1I", "131 lb");
    const auto found = WorkedSheet("springs", written).found(PointedOut::methods_differ);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("1I"));
    EXPECT_EQ(found[0].dimension, Dimension::force);
}

// By hand, band 135-145 lb: bare 1.850 gives 120; .030 makes 132, .045 (.030 + .015) 138, .060 144.
// 138 is nearest to the band's middle. Bind then: .100 - .045 = .055 is too little, and .030 too
// little a load: held by bind.
TEST(SpringsSheet, ShimsAreChosenForTheBandStated) {
    WrittenReadings written = one_spring();
    written.write("spring_shim", "1I", ".000")
        .write("spring_seat_load_wanted", "", "135-145 lb")
        .write("spring_bind_height", "1I", "1.200");
    const WorkedSheet sheet("springs", written);
    EXPECT_NEAR(sheet.middle("spring_shims_to_fit", "1I"), 0.045 * mm_per_inch, 1e-9);
    EXPECT_NEAR(sheet.middle("spring_seat_load_with_shims", "1I"), 138.0 * N_per_pound, 1e-6);
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

TEST(SpringsSheet, ShimsNeverEatWhatMustBeLeftBeforeBind) {
    WrittenReadings written = one_spring();
    written.write("spring_shim", "1I", ".000").write("spring_seat_load_wanted", "", "135-145 lb");
    const WorkedSheet sheet("springs", written);
    EXPECT_NEAR(sheet.middle("spring_shims_to_fit", "1I"), 0.030 * mm_per_inch, 1e-9);
    const auto found = sheet.found(PointedOut::out_of_reach);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].other, "spring_bind_margin");
    EXPECT_NEAR(found[0].numbers[0], 132.0 * N_per_pound, 1e-6);
}

// The height was read with .030 under it already: the stack is counted from the bare pocket.
// 1.850 with .030 is 1.880 bare; .075 would bring 138, no more than .060 may be stacked: 132 lb.
TEST(SpringsSheet, ShimsFittedNowAreCountedIntoTheStack) {
    WrittenReadings written = one_spring();
    written.write("spring_shim", "1I", ".030")
        .write("spring_seat_load_wanted", "", "135-145 lb")
        .write("spring_bind_height", "1I", "1.200");
    const WorkedSheet sheet("springs", written);
    EXPECT_NEAR(sheet.middle("spring_shims_to_fit", "1I"), 0.060 * mm_per_inch, 1e-9);
    const auto found = sheet.found(PointedOut::out_of_reach);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].other, "");
    EXPECT_NEAR(found[0].numbers[0], 132.0 * N_per_pound, 1e-6);
}

TEST(SpringsSheet, UnknownShimsAreNotTakenToBeNone) {
    WrittenReadings written = one_spring();
    written.write("spring_seat_load_wanted", "", "135-145 lb");
    const WorkedSheet sheet("springs", written);
    EXPECT_FALSE(sheet.figure("spring_shims_to_fit", "1I"));
    const auto found = sheet.found(PointedOut::needs_reading);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].other, "spring_shim");
    EXPECT_THAT(found[0].positions, ElementsAre("1I"));
}

// Without a bind height nothing says that a stack may be fitted.
TEST(SpringsSheet, ShimsWithoutABindHeightAskForIt) {
    WrittenReadings written = one_spring();
    written.write("spring_shim", "1I", ".000")
        .write("spring_seat_load_wanted", "", "135-145 lb")
        .write("spring_bind_height", "1I", "n/m");
    const auto found = WorkedSheet("springs", written).found(PointedOut::needs_reading);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].other, "spring_bind_height");
}

// By hand: .600 - .540 = .060, limit .050 (common practice).
TEST(SpringsSheet, RoomUnderTheRetainerIsWhatTheLiftLeaves) {
    WrittenReadings written;
    written.write("retainer_to_guide_closed", "2E", ".600").write("full_valve_lift", "2E", ".540");
    const WorkedSheet sheet("springs", written);
    EXPECT_NEAR(sheet.middle("retainer_to_guide", "2E"), 0.060 * mm_per_inch, 1e-9);
    EXPECT_EQ(sheet.verdict("retainer_to_guide", "2E"), SheetVerdict::passed);
    written.write("full_valve_lift", "2E", ".560");
    EXPECT_EQ(WorkedSheet("springs", written).verdict("retainer_to_guide", "2E"),
              SheetVerdict::failed);
}

/// As a page printed it (myvehicle.help, head specifications of a 1998 5.7): 340 N at 45.75 mm is
/// 76 lb at 1.80; 980 N at 35.55 mm is printed 220 lb at 1.32, where 35.55 mm is 1.400.
WrittenReadings printed_page() {
    WrittenReadings written;
    written.write("page_closed_height_metric", "", "45.75 mm")
        .write("page_closed_height_inch", "", "1.80")
        .write("page_closed_load_metric", "", "340 N")
        .write("page_closed_load_inch", "", "76 lb")
        .write("page_open_height_metric", "", "35.55 mm")
        .write("page_open_height_inch", "", "1.32")
        .write("page_open_load_metric", "", "980 N")
        .write("page_open_load_inch", "", "220 lb");
    return written;
}

TEST(SpringsSheet, APageWhoseColumnsContradictEachOtherIsPointedOut) {
    const WorkedSheet sheet("springs", printed_page());
    const auto found = sheet.found(PointedOut::columns_contradict);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].quantity, "page_open_height_metric");
    ASSERT_THAT(found[0].numbers, SizeIs(2));
    EXPECT_NEAR(found[0].numbers[0], 35.55, 1e-9);
    EXPECT_NEAR(found[0].numbers[1], 1.32 * mm_per_inch, 1e-9);
    // 640 N over 10.20 mm; 144 lb over .48 in.
    EXPECT_TRUE(sheet.figure("page_rate_metric")->holds(62.745));
    constexpr double N_per_mm = 0.17512683524; // of a pound an inch (NIST SP 811)
    EXPECT_TRUE(sheet.figure("page_rate_inch")->holds(300.0 * N_per_mm));
    EXPECT_FALSE(sheet.figure("page_rate_inch")->holds(358.3 * N_per_mm));
}

// A lift of .402 (10.2 mm) goes with the metric column, .480 with the inch one.
TEST(SpringsSheet, AMeasuredLiftSaysWhichColumnStands) {
    const auto stands = [](const char* lift) {
        WrittenReadings written = printed_page();
        written.write("full_valve_lift", "1I", lift);
        const auto found = WorkedSheet("springs", written).found(PointedOut::columns_contradict);
        return found.size() == 1 && found[0].numbers.size() == 3 ? found[0].numbers[2] : 0.0;
    };
    EXPECT_NEAR(stands(".402"), 35.55, 1e-9);
    EXPECT_NEAR(stands(".480"), 1.32 * mm_per_inch, 1e-9);
}

TEST(SpringsSheet, APageWhoseColumnsAgreeIsNot) {
    WrittenReadings written = printed_page();
    written.write("page_open_height_inch", "", "1.40");
    EXPECT_THAT(WorkedSheet("springs", written).findings(), IsEmpty());
}

} // namespace
} // namespace rodway
