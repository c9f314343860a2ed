#include "tests/core/demo_set_ups.h"
#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

/// A balance card, g: chevyhiperformance.com 0906chp; "x2" there is each of two rods.
WrittenReadings published_card() {
    WrittenReadings written;
    return written.write("ring_set_mass", "", "69.5")
        .write("piston_mass", "1", "583.9")
        .write("pin_mass", "", "173.6")
        .write("pin_lock_mass", "", "4.8")
        .write("rod_small_end_mass", "1", "162.4")
        .write("rod_big_end_mass", "1", "459.6")
        .write("rod_bearing_mass", "", "47.4")
        .write("oil_allowance_mass", "", "4")
        .write("balance_factor", "", "50")
        .write("rods_on_throw", "", "2");
}

// 994.2 + 2 x 459.6 + 2 x 47.4 + 4 = 2012.2; the steps of .1 g count 5/2·2 + 2·2 halves of them,
// that of the oil half a gram.
TEST(BalanceSheet, BobweightOfASharedThrow) {
    const FilledSheet sheet("balance", published_card());
    expect_figure(sheet.figure("bobweight", ""), 2012.2, 0.25 + 0.2 + 0.5, 1.0);
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

// 994.2 / 2 + 459.6 + 47.4 + 4: oil counts once a throw.
TEST(BalanceSheet, OneRodOnAThrowIsNotHalfOfTwo) {
    WrittenReadings written = published_card();
    written.write("rods_on_throw", "", "1");
    EXPECT_NEAR(FilledSheet("balance", written).figure("bobweight", "")->middle(), 1008.1, 1e-9);
}

TEST(BalanceSheet, InARowEveryCylinderHasItsThrow) {
    WrittenReadings written = published_card();
    written.write("rods_on_throw", "", "");
    EXPECT_FALSE(FilledSheet("balance", written).figure("bobweight", ""));
    const Engine vee = demo_engine("v8-port-tubes");
    EXPECT_FALSE(FilledSheet("balance", written, nullptr, {}, &vee).figure("bobweight", ""));
    const Engine row = demo_engine("inline-six");
    const auto bobweight =
        FilledSheet("balance", written, nullptr, {}, &row).figure("bobweight", "");
    ASSERT_TRUE(bobweight);
    EXPECT_NEAR(bobweight->middle(), 1008.1, 1e-9);
}

TEST(BalanceSheet, AStatedBobweightIsSetBesideTheWeights) {
    WrittenReadings written = published_card();
    written.write("bobweight", "", "2012");
    EXPECT_THAT(FilledSheet("balance", written).findings(), IsEmpty());
    written.write("bobweight", "", "1905"); // both bearings and the oil forgotten
    const auto found = FilledSheet("balance", written).findings();
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::stated_differs);
}

TEST(BalanceSheet, NoWeightIsGuessed) {
    WrittenReadings written = published_card();
    written.write("oil_allowance_mass", "", "n/m");
    FilledSheet sheet("balance", written);
    EXPECT_FALSE(sheet.figure("bobweight", ""));
    ASSERT_THAT(sheet.findings(), SizeIs(1));
    EXPECT_EQ(sheet.findings()[0].what, PointedOut::needs_reading);
    EXPECT_EQ(sheet.findings()[0].other, "oil_allowance_mass");
    // With more than one thing open the sheet isn't done: nothing is said of it.
    written.write("balance_factor", "", "");
    EXPECT_THAT(FilledSheet("balance", written).findings(), IsEmpty());
}

// Which pistons share a throw isn't known: 2 x half of 584.9 to 585.1 more than 583.9.
TEST(BalanceSheet, PartsThatDifferLeaveTheBobweightOpen) {
    WrittenReadings written = published_card();
    written.write("piston_mass", "2", "584.9");
    const auto bobweight = FilledSheet("balance", written).figure("bobweight", "");
    ASSERT_TRUE(bobweight);
    EXPECT_NEAR(bobweight->low, 2012.2 - 0.95, 1e-9);
    EXPECT_NEAR(bobweight->high, 2013.2 + 0.95, 1e-9);
}

} // namespace
} // namespace rodway
