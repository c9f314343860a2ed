#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

WrittenReadings gaps() {
    WrittenReadings written;
    written.write("rod_gap", "1I/tube/rocker/3/heel", ".015")
        .write("rod_gap", "1I/tube/rocker/9/full_lift", ".008")
        .write("rod_gap", "1I/tube/lifter/3/heel", ".020")
        .write("rod_gap", "3E/tube/lifter/3/heel", ".030");
    return written;
}

// .010 at the closest point: common practice.
TEST(RodClearanceSheet, TheLeastOfTheGapsFeltIsJudged) {
    const WorkedSheet sheet("rod_clearance", gaps());
    EXPECT_NEAR(sheet.middle("rod_gap_least", "1I"), 8.0 * thou, 1e-9);
    EXPECT_EQ(sheet.verdict("rod_gap_least", "1I"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("rod_gap_least", "3E"), SheetVerdict::passed);
}

// Over a whole turn there may be less than was felt somewhere, never more.
TEST(RodClearanceSheet, AClearanceAboveAGapThatWasFeltIsPointedOut) {
    WrittenReadings written = gaps();
    written.write("rod_clearance", "1I", ".006");
    EXPECT_THAT(WorkedSheet("rod_clearance", written).findings(), IsEmpty());
    written.write("rod_clearance", "1I", ".012");
    const auto found = WorkedSheet("rod_clearance", written).found(PointedOut::methods_differ);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("1I"));
}

TEST(RodClearanceSheet, ALightTouchIsNeverWithinTheLimit) {
    WrittenReadings written;
    written.write("rod_clearance", "1I", "touch")
        .write("rod_clearance", "1E", "tape .012 survived");
    const WorkedSheet sheet("rod_clearance", written);
    EXPECT_EQ(sheet.verdict("rod_clearance", "1I"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("rod_clearance", "1E"), SheetVerdict::passed);
}

TEST(RodClearanceSheet, TheWallLeftIsBeforeLessRemoved) {
    WrittenReadings written;
    written.write("passage_wall_before", "1I", ".110").write("passage_metal_removed", "1I", ".030");
    EXPECT_NEAR(WorkedSheet("rod_clearance", written).middle("passage_wall_left", "1I"),
                80.0 * thou, 1e-9);
    written.write("passage_wall_left", "1I", ".060");
    EXPECT_THAT(WorkedSheet("rod_clearance", written).found(PointedOut::stated_differs), SizeIs(1));
}

} // namespace
} // namespace rodway
