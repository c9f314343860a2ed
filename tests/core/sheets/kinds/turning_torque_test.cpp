#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in_lb = 0.3048 * 4.4482216152605 / 12.0; // NIST SP 811

/// Pistons in the order of fitting: each adds 7 in-lb, the sixth cylinder's 19.
WrittenReadings assembly() {
    WrittenReadings written;
    return written.write("turning_torque_crank", "", "5")
        .write("turning_torque_with_piston", "1", "12")
        .write("turning_torque_with_piston", "8", "19")
        .write("turning_torque_with_piston", "4", "27")
        .write("turning_torque_with_piston", "3", "34")
        .write("turning_torque_with_piston", "6", "53")
        .write("turning_torque_with_piston", "5", "60")
        .write("turning_torque_short_block", "", "75");
}

TEST(TurningTorqueSheet, EachPistonAddsToTheOneFittedBeforeIt) {
    const FilledSheet sheet("turning_torque", assembly());
    expect_figure(sheet.figure("turning_torque_added", "1"), 7.0, 1.0, in_lb);
    expect_figure(sheet.figure("turning_torque_added", "8"), 7.0, 1.0, in_lb);
    expect_figure(sheet.figure("turning_torque_added", "4"), 8.0, 1.0, in_lb);
    expect_figure(sheet.figure("turning_torque_added", "6"), 19.0, 1.0, in_lb);
    expect_figure(sheet.figure("turning_torque_after_pistons", ""), 15.0, 1.0, in_lb);
}

TEST(TurningTorqueSheet, ThePistonThatAddsMoreThanItsMatesIsPointedOut) {
    const auto found = FilledSheet("turning_torque", assembly()).findings();
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::odd_one_out);
    EXPECT_EQ(found[0].quantity, "turning_torque_added");
    EXPECT_THAT(found[0].positions, ElementsAre("6"));
    EXPECT_NEAR(found[0].numbers[0] / in_lb, 19.0, 1e-9);
    EXPECT_NEAR(found[0].numbers[1] / in_lb, 7.0, 1e-9);
    WrittenReadings even = assembly();
    even.write("turning_torque_with_piston", "6", "41")
        .write("turning_torque_with_piston", "5", "48");
    EXPECT_THAT(FilledSheet("turning_torque", even).findings(), IsEmpty());
}

TEST(TurningTorqueSheet, AStepThatWasNotReadTakesTheNextWithIt) {
    WrittenReadings written = assembly();
    written.write("turning_torque_with_piston", "4", "n/m");
    const FilledSheet sheet("turning_torque", written);
    EXPECT_FALSE(sheet.figure("turning_torque_added", "4"));
    EXPECT_FALSE(sheet.figure("turning_torque_added", "3")); // two pistons' worth
    EXPECT_TRUE(sheet.figure("turning_torque_added", "6"));
}

} // namespace
} // namespace rodway
