#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

constexpr double in = 25.4;

// By hand: 3.481 less 3.479, each known to half a thousandth.
TEST(CrankSheet, StrokesSpreadAndTheWorstRunoutIsTaken) {
    WrittenReadings written;
    written.write("stroke", "1", "3.480")
        .write("stroke", "2", "3.481")
        .write("stroke", "3", "3.479")
        .write("stroke", "4", "n/m")
        .write("crank_runout", "J2", ".0004")
        .write("crank_runout", "J3", ".0011")
        .write("crank_runout", "J4", ".0006");
    const FilledSheet sheet("crank", written);
    expect_figure(sheet.figure("stroke_spread", ""), 0.002, 0.001, in);
    expect_figure(sheet.figure("crank_runout_greatest", ""), 0.0011, 0.00005, in);
}

TEST(CrankSheet, OneStrokeHasNoSpread) {
    WrittenReadings written;
    written.write("stroke", "1", "3.480");
    const FilledSheet sheet("crank", written);
    EXPECT_FALSE(sheet.figure("stroke_spread", ""));
    EXPECT_FALSE(sheet.figure("crank_runout_greatest", ""));
}

// End play .004 to .010, rods' side clearance .010 to .020: common practice, no source.
TEST(CrankSheet, EndPlayAndSideClearanceAreJudgedByCommonPractice) {
    const auto verdict = [](const char* quantity, const char* position, const char* text) {
        WrittenReadings written;
        written.write(quantity, position, text);
        const FilledSheet sheet("crank", written);
        EXPECT_EQ(sheet.box(quantity, position)->limit->usual, UsualSource::common_practice);
        return sheet.verdict(quantity, position);
    };
    EXPECT_EQ(verdict("crank_end_play", "", ".006"), SheetVerdict::passed);
    EXPECT_EQ(verdict("crank_end_play", "", ".003"), SheetVerdict::failed);
    EXPECT_EQ(verdict("crank_end_play", "", ".012"), SheetVerdict::failed);
    EXPECT_EQ(verdict("rod_side_clearance", "3", ".015"), SheetVerdict::passed);
    EXPECT_EQ(verdict("rod_side_clearance", "3", ".008"), SheetVerdict::failed);
    EXPECT_EQ(verdict("rod_side_clearance", "3", ".022"), SheetVerdict::failed);
}

} // namespace
} // namespace rodway
