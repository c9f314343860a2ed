#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

constexpr double in = 25.4;

WrittenReadings third_bore() {
    WrittenReadings written;
    return written.write("bore", "3 top thrust", "4.0312")
        .write("bore", "3 top pin", "4.0308")
        .write("bore", "3 middle thrust", "4.0305")
        .write("bore", "3 middle pin", "4.0304")
        .write("bore", "3 bottom thrust", "4.0303")
        .write("bore", "3 bottom pin", "4.0300");
}

// By hand. Taper is .0009 down the thrust side, .0008 down the pin side; the greatest less the
// least of all six would be .0012.
TEST(BoresSheet, TaperIsAlongOneDirectionAndOutOfRoundAtOneDepth) {
    const FilledSheet sheet("bores", third_bore());
    expect_figure(sheet.figure("bore_taper", "3"), 0.0009, 0.0001, in);
    expect_figure(sheet.figure("bore_out_of_round", "3"), 0.0004, 0.0001, in);
    expect_figure(sheet.figure("bore_size", "3"), 4.0 + 0.1832 / 6.0, 0.00005, in);
    EXPECT_FALSE(sheet.figure("bore_taper", "4"));
}

TEST(BoresSheet, AReadingWithoutDepthOrDirectionMakesNeither) {
    WrittenReadings written;
    written.write("bore", "3", "4.0312").write("bore", "3 top thrust", "4.0300");
    const FilledSheet sheet("bores", written);
    expect_figure(sheet.figure("bore_size", "3"), 4.0306, 0.00005, in);
    EXPECT_FALSE(sheet.figure("bore_taper", "3"));
    EXPECT_FALSE(sheet.figure("bore_out_of_round", "3"));
}

TEST(BoresSheet, WhatWasNotMeasuredIsNoSize) {
    WrittenReadings written;
    written.write("bore", "3 top thrust", "n/m").write("bore", "3 bottom thrust", "");
    EXPECT_FALSE(FilledSheet("bores", written).figure("bore_size", "3"));
}

// .0005 as new, .001 kept: common practice, no source.
TEST(BoresSheet, HalfAThousandthIsUsualAndAThousandthServiceable) {
    const auto verdict = [](const char* top, const char* bottom) {
        WrittenReadings written;
        written.write("bore", "1 top thrust", top).write("bore", "1 bottom thrust", bottom);
        return FilledSheet("bores", written).verdict("bore_taper", "1");
    };
    EXPECT_EQ(verdict("4.0303", "4.0300"), SheetVerdict::passed);
    EXPECT_EQ(verdict("4.0308", "4.0300"), SheetVerdict::serviceable);
    EXPECT_EQ(verdict("4.0310", "4.0300"), SheetVerdict::too_close);
    EXPECT_EQ(verdict("4.0312", "4.0300"), SheetVerdict::failed);
    const FilledSheet sheet("bores", third_bore());
    EXPECT_EQ(sheet.box("bore_taper", "3")->limit->usual, UsualSource::common_practice);
}

} // namespace
} // namespace rodway
