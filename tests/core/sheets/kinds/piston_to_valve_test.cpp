#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// Clearance .100 + .0002·(x - 8)², x in degrees after top dead centre, read to .001.
WrittenReadings parabola(const std::string& valve) {
    WrittenReadings written;
    written.write("valve_drop", valve + " 5 BTDC", ".134")
        .write("valve_drop", valve + " TDC", ".113")
        .write("valve_drop", valve + " 20 ATDC", ".129")
        .write("valve_drop", valve + " 5 ATDC", ".102")
        .write("valve_drop", valve + " 10 ATDC", ".101")
        .write("valve_drop", valve + " 15 ATDC", ".110");
    return written;
}

// Expected: the parabola's own bottom, .100 at 8; readings to .001 leave half of that.
TEST(PistonToValveSheet, TheLeastLiesBetweenReadingsAndNotAtTopDeadCentre) {
    const WorkedSheet sheet("piston_to_valve", parabola("3I"));
    const auto least = sheet.figure("piston_to_valve_clearance", "3I");
    ASSERT_TRUE(least);
    EXPECT_TRUE(least->holds(0.100 * mm_per_inch));
    EXPECT_GT(least->low, 0.0990 * mm_per_inch);
    EXPECT_NEAR(least->high, 0.1015 * mm_per_inch, 1e-9);
    EXPECT_NEAR(sheet.middle("piston_to_valve_angle", "3I"), 8.0, 0.2);
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

// I .080, E .100, aluminium rods .030 more: common practice, no source.
TEST(PistonToValveSheet, IntakeAndExhaustHaveTheirOwnLimits) {
    EXPECT_EQ(
        WorkedSheet("piston_to_valve", parabola("3I")).verdict("piston_to_valve_clearance", "3I"),
        SheetVerdict::passed);
    EXPECT_EQ(
        WorkedSheet("piston_to_valve", parabola("3E")).verdict("piston_to_valve_clearance", "3E"),
        SheetVerdict::too_close);
    WrittenReadings aluminium = parabola("3I");
    aluminium.write("connecting_rod_metal", "", "aluminium");
    EXPECT_EQ(WorkedSheet("piston_to_valve", aluminium).verdict("piston_to_valve_clearance", "3I"),
              SheetVerdict::failed);
    WrittenReadings side;
    side.write("piston_to_valve_side", "3I", ".045");
    EXPECT_EQ(WorkedSheet("piston_to_valve", side).verdict("piston_to_valve_side", "3I"),
              SheetVerdict::failed);
}

TEST(PistonToValveSheet, ALeastAtTheRowsEndIsNoAnswer) {
    WrittenReadings written;
    written.write("valve_drop", "3I TDC", ".113")
        .write("valve_drop", "3I 5 ATDC", ".102")
        .write("valve_drop", "3I 10 ATDC", ".101");
    const WorkedSheet sheet("piston_to_valve", written);
    EXPECT_FALSE(sheet.figure("piston_to_valve_clearance", "3I"));
    const auto found = sheet.found(PointedOut::least_at_end);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("3I 10 ATDC"));
    EXPECT_NEAR(found[0].numbers[0], 0.101 * mm_per_inch, 1e-9);
}

TEST(PistonToValveSheet, ClayThatContradictsTheDialIsAnotherMethod) {
    WrittenReadings written = parabola("3I");
    written.write("piston_to_valve_clearance", "3I", ".090");
    EXPECT_THAT(WorkedSheet("piston_to_valve", written).found(PointedOut::stated_differs),
                SizeIs(1));
    written.write("piston_to_valve_method", "", "clay");
    EXPECT_THAT(WorkedSheet("piston_to_valve", written).found(PointedOut::methods_differ),
                SizeIs(1));
    written.write("piston_to_valve_clearance", "3I", ".100");
    EXPECT_THAT(WorkedSheet("piston_to_valve", written).findings(), IsEmpty());
}

} // namespace
} // namespace rodway
