#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

constexpr double in = 25.4;

TEST(RotatingClearancesSheet, TheSmallestOfEachPairIsTaken) {
    WrittenReadings written;
    written.write("rod_to_cam_clearance", "1", ".080")
        .write("rod_to_cam_clearance", "2", ".055")
        .write("rod_to_cam_clearance", "3", "n/m")
        .write("rod_to_cam_clearance", "6", ">.060")
        .write("counterweight_to_block_clearance", "J2", ".110")
        .write("counterweight_to_block_clearance", "J4", ".095");
    const FilledSheet sheet("rotating_clearances", written);
    expect_figure(sheet.figure("rod_to_cam_smallest", ""), 0.055, 0.0005, in);
    expect_figure(sheet.figure("counterweight_to_block_smallest", ""), 0.095, 0.0005, in);
    EXPECT_FALSE(sheet.figure("rod_to_block_smallest", ""));
}

// A rod that clears a .060 gauge may still be the nearest, so the smallest begins there.
TEST(RotatingClearancesSheet, AGaugeThatWentThroughLeavesTheSmallestOpen) {
    WrittenReadings written;
    written.write("rod_to_block_clearance", "1", ".075")
        .write("rod_to_block_clearance", "2", ">.060");
    const auto smallest =
        FilledSheet("rotating_clearances", written).figure("rod_to_block_smallest", "");
    ASSERT_TRUE(smallest);
    EXPECT_NEAR(smallest->low / in, 0.060, 1e-9);
    EXPECT_NEAR(smallest->high / in, 0.0755, 1e-9);
    written.write("rod_to_block_clearance", "1", ">.060");
    EXPECT_FALSE(FilledSheet("rotating_clearances", written).figure("rod_to_block_smallest", ""));
}

// .050 and more: common practice, no source.
TEST(RotatingClearancesSheet, FiftyThousandthsAreUsual) {
    const auto verdict = [](const char* quantity, const char* position, const char* text) {
        WrittenReadings written;
        written.write(quantity, position, text);
        return FilledSheet("rotating_clearances", written).verdict(quantity, position);
    };
    EXPECT_EQ(verdict("rod_to_block_clearance", "3", ".055"), SheetVerdict::passed);
    EXPECT_EQ(verdict("rod_to_block_clearance", "3", ">.060"), SheetVerdict::passed);
    EXPECT_EQ(verdict("rod_to_block_clearance", "3", ".045"), SheetVerdict::failed);
    EXPECT_EQ(verdict("rod_to_block_clearance", "3", "touch"), SheetVerdict::failed);
    EXPECT_EQ(verdict("crank_to_pump_clearance", "", ".050"), SheetVerdict::too_close);
    EXPECT_EQ(verdict("counterweight_to_piston_clearance", "3", ".200"), SheetVerdict::passed);
}

} // namespace
} // namespace rodway
