#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

constexpr double in = 25.4;

// By hand; the lightest big end is the fourth's.
TEST(ConnectingRodsSheet, EveryEndIsSetBesideTheLightest) {
    WrittenReadings written;
    written.write("rod_big_end_mass", "1", "459.8")
        .write("rod_big_end_mass", "2", "460.4")
        .write("rod_big_end_mass", "3", "459.9")
        .write("rod_big_end_mass", "4", "459.6")
        .write("rod_small_end_mass", "1", "162.4")
        .write("rod_small_end_mass", "2", "162.0");
    const FilledSheet sheet("connecting_rods", written);
    expect_figure(sheet.figure("rod_big_end_mass_spread", ""), 0.8, 0.1, 1.0);
    expect_figure(sheet.figure("rod_big_end_over_lightest", "2"), 0.8, 0.1, 1.0);
    expect_figure(sheet.figure("rod_big_end_over_lightest", "4"), 0.0, 0.0, 1.0);
    expect_figure(sheet.figure("rod_small_end_over_lightest", "1"), 0.4, 0.1, 1.0);
    expect_figure(sheet.figure("rod_small_end_mass_spread", ""), 0.4, 0.1, 1.0);
}

TEST(ConnectingRodsSheet, LengthsSpread) {
    WrittenReadings written;
    written.write("connecting_rod_length", "1", "5.7000")
        .write("connecting_rod_length", "2", "5.6985")
        .write("connecting_rod_length", "3", "5.7003");
    const FilledSheet sheet("connecting_rods", written);
    expect_figure(sheet.figure("connecting_rod_length_spread", ""), 0.0018, 0.0001, in);
    EXPECT_FALSE(sheet.figure("rod_big_end_mass_spread", ""));
}

TEST(ConnectingRodsSheet, OneRodHasNothingToMatch) {
    WrittenReadings written;
    written.write("rod_big_end_mass", "1", "459.8").write("rod_big_end_mass", "2", "n/m");
    const FilledSheet sheet("connecting_rods", written);
    EXPECT_FALSE(sheet.figure("rod_big_end_over_lightest", "1"));
    EXPECT_FALSE(sheet.figure("rod_big_end_mass_spread", ""));
}

} // namespace
} // namespace rodway
