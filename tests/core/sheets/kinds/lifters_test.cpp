#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

// .0010 to .0020: common practice. The bore is read on another sheet.
TEST(LiftersSheet, ClearanceIsBoreLessLifter) {
    WrittenReadings written;
    written.write("lifter_bore_diameter", "1I", ".8433").write("lifter_diameter", "1I", ".8420");
    const WorkedSheet sheet("lifters", written);
    EXPECT_NEAR(sheet.middle("lifter_clearance", "1I"), 1.3 * thou, 1e-9);
    EXPECT_EQ(sheet.verdict("lifter_clearance", "1I"), SheetVerdict::passed);
}

WrittenReadings turned(const char* set_by) {
    WrittenReadings written;
    written.write("preload_set_by", "", set_by)
        .write("preload_thread", "", "3/8-24")
        .write("preload_turns", "1I", ".75");
    return written;
}

// 3/4 turn of 24 threads an inch is .03125; a nut on the stud moves the rod's seat by 1 + 1/1.5 of
// that (rule of thumb of the shop): .0521. A screw in the rocker moves it by itself.
TEST(LiftersSheet, PreloadFollowsFromTurnsThreadAndLever) {
    WrittenReadings nut = turned("fulcrum nut");
    EXPECT_FALSE(WorkedSheet("lifters", nut).figure("lifter_preload", "1I"));
    nut.write("rocker_ratio_nominal", "1I", "1.5").write("lifter_plunger_travel", "1I", ".150");
    const WorkedSheet sheet("lifters", nut);
    EXPECT_NEAR(sheet.middle("lifter_preload", "1I"), 0.75 / 24.0 * (1.0 + 1.0 / 1.5) * mm_per_inch,
                1e-3);
    EXPECT_EQ(sheet.verdict("lifter_preload", "1I"), SheetVerdict::passed);
    EXPECT_NEAR(sheet.middle("plunger_travel_left", "1I"), (150.0 - 52.08) * thou, 1e-3);
    EXPECT_NEAR(WorkedSheet("lifters", turned("rocker screw")).middle("lifter_preload", "1I"),
                31.25 * thou, 1e-9);
}

TEST(LiftersSheet, APlungerOnItsBottomIsOutsideTheLimit) {
    WrittenReadings written;
    written.write("lifter_preload", "1I", ".100").write("lifter_plunger_travel", "1I", ".090");
    const WorkedSheet sheet("lifters", written);
    EXPECT_NEAR(sheet.middle("plunger_travel_left", "1I"), -10.0 * thou, 1e-9);
    EXPECT_EQ(sheet.verdict("plunger_travel_left", "1I"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("lifter_preload", "1I"), SheetVerdict::failed);
}

TEST(LiftersSheet, AGapAtTheClipThatDeniesTheTurnsIsAnotherMethod) {
    WrittenReadings written = turned("rocker screw");
    written.write("lifter_preload", "1I", ".050");
    EXPECT_THAT(WorkedSheet("lifters", written).found(PointedOut::methods_differ), SizeIs(1));
}

} // namespace
} // namespace rodway
