#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "core/units/angle.h"
#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

constexpr double thou = 0.001 * mm_per_inch;

/// Left .030 high at both ends, right .020 at the front and nothing at the rear.
WrittenReadings ports() {
    WrittenReadings written;
    written.write("head_port_height", "left front", "1.000")
        .write("intake_port_height", "left front", "1.030")
        .write("head_port_height", "left rear", "1.000")
        .write("intake_port_height", "left rear", "1.030")
        .write("head_port_height", "right front", "1.000")
        .write("intake_port_height", "right front", "1.020")
        .write("head_port_height", "right rear", "1.000")
        .write("intake_port_height", "right rear", "1.000");
    return written;
}

// By hand: sides' means .030 and .010; tilts 0 and .020.
TEST(IntakeSheet, PortsAreHighLowAndTiltedAsTheirEndsSay) {
    const WorkedSheet sheet("intake", ports());
    EXPECT_NEAR(sheet.middle("intake_port_high_by", "right front"), 20.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("intake_high_by"), 20.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("intake_sides_differ"), 20.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("intake_tilt"), 10.0 * thou, 1e-9);
}

TEST(IntakeSheet, APortReadOnOneFaceOnlySaysNothing) {
    WrittenReadings written;
    written.write("head_port_height", "left front", "1.000");
    EXPECT_FALSE(WorkedSheet("intake", written).figure("intake_high_by"));
}

// .008 at the top, .002 at the bottom, 3 in apart: atan(.002) = .1146 degrees.
TEST(IntakeSheet, FeelersTopAndBottomMakeAnAngle) {
    WrittenReadings written;
    written.write("intake_face_gap", "left front top", ".008")
        .write("intake_face_gap", "left front bottom", ".002")
        .write("intake_face_gap", "right front top", ".004");
    WorkedSheet sheet("intake", written);
    EXPECT_NEAR(sheet.middle("intake_face_wedge", "left front"), 6.0 * thou, 1e-9);
    EXPECT_FALSE(sheet.figure("intake_face_angle", "left front"));
    EXPECT_FALSE(sheet.figure("intake_face_wedge", "right front"));
    written.write("intake_face_width", "", "3.000");
    sheet = WorkedSheet("intake", written);
    EXPECT_NEAR(sheet.middle("intake_face_angle", "left front"), degrees(std::atan(0.002)), 1e-4);
}

// 1/8 in is typical (common practice); .125 pressed by 30 % was .1786 high.
TEST(IntakeSheet, EndGapsAreJudgedAndWantTheirBead) {
    WrittenReadings written;
    written.write("end_rail_gap", "front", ".100")
        .write("end_rail_gap", "rear", ".140")
        .write("bead_crush", "", "30 %");
    const WorkedSheet sheet("intake", written);
    EXPECT_EQ(sheet.verdict("end_rail_gap", "front"), SheetVerdict::passed);
    EXPECT_EQ(sheet.verdict("end_rail_gap", "rear"), SheetVerdict::failed);
    EXPECT_NEAR(sheet.middle("end_rail_front_less_rear"), -40.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("end_rail_bead_wanted", "front"), 0.100 / 0.7 * mm_per_inch, 0.01);
    EXPECT_NEAR(sheet.middle("end_rail_bead_wanted", "rear"), 0.140 / 0.7 * mm_per_inch, 0.01);
}

// Source of the trap: 67-72chevytrucks.com, showpost 8998399: manifold bolts 1/4 in too long reach
// the pushrods. Sizes invented: 1-1/2 less .625 is .875 into a hole whose passage begins at 1.000.
TEST(IntakeSheet, ABoltAQuarterTooLongStandsInTheRodsPassage) {
    const auto with_length = [](const char* length) {
        WrittenReadings written;
        written.write("intake_bolt_length", "bolt 5", length)
            .write("intake_bolt_grip", "bolt 5", ".625")
            .write("intake_hole_to_passage", "bolt 5", "1.000");
        return WorkedSheet("intake", written);
    };
    const WorkedSheet right = with_length("1.500");
    EXPECT_NEAR(right.middle("intake_bolt_to_passage", "bolt 5"), 125.0 * thou, 1e-9);
    EXPECT_EQ(right.verdict("intake_bolt_to_passage", "bolt 5"), SheetVerdict::passed);
    EXPECT_FALSE(right.figure("intake_bolt_engaged", "bolt 5"));
    EXPECT_FALSE(right.figure("intake_bolt_to_bottom", "bolt 5"));
    const WorkedSheet too_long = with_length("1.750");
    EXPECT_NEAR(too_long.middle("intake_bolt_to_passage", "bolt 5"), -125.0 * thou, 1e-9);
    EXPECT_EQ(too_long.verdict("intake_bolt_to_passage", "bolt 5"), SheetVerdict::failed);
}

} // namespace
} // namespace rodway
