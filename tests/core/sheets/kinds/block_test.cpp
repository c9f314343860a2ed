#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::SizeIs;

constexpr double in = 25.4;

// By hand, e.g. rear: (9.0290 + 9.0270 - 9.0250 - 9.0240)/2.
TEST(BlockSheet, ADeckLiesAsItsCornersSay) {
    WrittenReadings written;
    written.write("deck_height", "left front inner", "9.0250")
        .write("deck_height", "left front outer", "9.0240")
        .write("deck_height", "left rear inner", "9.0290")
        .write("deck_height", "left rear outer", "9.0270")
        .write("deck_height", "right front inner", "9.0000");
    const FilledSheet sheet("block", written);
    expect_figure(sheet.figure("deck_height_spread", "left"), 0.0050, 0.0001, in);
    expect_figure(sheet.figure("deck_rear_higher", "left"), 0.0035, 0.0001, in);
    expect_figure(sheet.figure("deck_outer_higher", "left"), -0.0015, 0.0001, in);
    expect_figure(sheet.figure("deck_twist", "left"), -0.0010, 0.0002, in);
    EXPECT_FALSE(sheet.figure("deck_height_spread", "right"));
    EXPECT_FALSE(sheet.figure("deck_rear_higher", "right"));
}

// Builders have found a deck .030 out from end to end. Without corners nothing is said of a tilt.
TEST(BlockSheet, TwoEndsOfADeckSayOnlyHowItRises) {
    WrittenReadings written;
    written.write("deck_height", "front", "9.030").write("deck_height", "rear", "9.000");
    const FilledSheet sheet("block", written);
    expect_figure(sheet.figure("deck_rear_higher", ""), -0.030, 0.001, in);
    EXPECT_FALSE(sheet.figure("deck_outer_higher", ""));
    EXPECT_FALSE(sheet.figure("deck_twist", ""));
}

TEST(BlockSheet, MainHousings) {
    WrittenReadings written;
    for (const char* journal : {"J1", "J2", "J3", "J4"}) {
        written.write("main_housing_bore", std::string(journal) + " vertical", "2.6410")
            .write("main_housing_bore", std::string(journal) + " horizontal", "2.6405");
    }
    written.write("main_housing_bore", "J2 vertical", "2.6160");
    const FilledSheet sheet("block", written);
    expect_figure(sheet.figure("main_housing_out_of_round", "J1"), 0.0005, 0.0001, in);
    const auto found = sheet.found(PointedOut::misread_by_a_turn);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("J2 vertical"));
    EXPECT_NEAR(found[0].numbers[2] / in, -0.025, 1e-9);
    EXPECT_THAT(sheet.findings(), SizeIs(1));
}

} // namespace
} // namespace rodway
