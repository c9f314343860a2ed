#include "tests/core/demo_set_ups.h"
#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

constexpr double in = 25.4;

WrittenReadings rings(const char* top, const char* second) {
    WrittenReadings written;
    return written.write("bore", "3 top thrust", "4.030")
        .write("ring_gap", "3 top", top)
        .write("ring_gap", "3 second", second);
}

// Least of a road engine .0040 and .0050, most of a boosted one .0060 and .0065 for an inch of
// bore: common practice, no source.
TEST(RingsSheet, TheUsualGapGoesByTheBoreOfItsOwnCylinder) {
    WrittenReadings written = rings("18 thou", "22 thou");
    written.write("bore", "4 top thrust", "3.000").write("ring_gap", "4 top", ".018");
    const FilledSheet sheet("rings", written);
    const SheetBox* top = sheet.box("ring_gap", "3 top");
    ASSERT_TRUE(top->limit);
    EXPECT_EQ(top->limit->usual, UsualSource::common_practice);
    EXPECT_NEAR(*top->limit->low / in, 0.01612, 1e-9);
    EXPECT_NEAR(*top->limit->high / in, 0.02418, 1e-9);
    EXPECT_NEAR(*sheet.box("ring_gap", "3 second")->limit->low / in, 0.02015, 1e-9);
    EXPECT_NEAR(*sheet.box("ring_gap", "3 second")->limit->high / in, 0.026195, 1e-9);
    EXPECT_NEAR(*sheet.box("ring_gap", "4 top")->limit->low / in, 0.012, 1e-9);
    EXPECT_EQ(sheet.verdict("ring_gap", "3 top"), SheetVerdict::passed);
}

// .01612 less .012, and .02015 less .020, by hand.
TEST(RingsSheet, SaysWhatIsToBeFiledOff) {
    const FilledSheet sheet("rings", rings(".0120", ".0230"));
    expect_figure(sheet.figure("ring_to_file", "3 top"), 0.00412, 0.00005, in);
    expect_figure(sheet.figure("ring_to_file", "3 second"), 0.0, 0.0, in);
    EXPECT_EQ(sheet.verdict("ring_gap", "3 top"), SheetVerdict::failed);
    expect_figure(FilledSheet("rings", rings(".016", "n/m")).figure("ring_to_file", "3 top"),
                  0.00031, 0.00031, in);
    EXPECT_FALSE(FilledSheet("rings", rings(".016", "n/m")).figure("ring_to_file", "3 second"));
}

TEST(RingsSheet, AShopsLimitIsFiledToBeforeCommonPractice) {
    SheetLimit card;
    card.quantity = "ring_gap";
    card.position = "3 top";
    card.low = 0.0220 * in;
    card.source = "the ring maker's card";
    const FilledSheet sheet("rings", rings(".0180", ".0200"), nullptr, {card});
    expect_figure(sheet.figure("ring_to_file", "3 top"), 0.0040, 0.00005, in);
    expect_figure(sheet.figure("ring_to_file", "3 second"), 0.00015, 0.00005, in);
}

TEST(RingsSheet, WithoutABoreNothingIsUsual) {
    WrittenReadings written;
    written.write("ring_gap", "3 top", ".012");
    const FilledSheet sheet("rings", written);
    EXPECT_EQ(sheet.verdict("ring_gap", "3 top"), SheetVerdict::no_limit);
    EXPECT_FALSE(sheet.figure("ring_to_file", "3 top"));
}

TEST(RingsSheet, TheSetUpsBoreStandsInForOneNotMeasured) {
    WrittenReadings written;
    written.write("ring_gap", "3 top", ".0120");
    const Engine engine = demo_engine("flat-four"); // 3.95 in; .0040 of that less .0120
    const FilledSheet sheet("rings", written, nullptr, {}, &engine);
    expect_figure(sheet.figure("ring_to_file", "3 top"), 0.0038, 0.00005, in);
}

} // namespace
} // namespace rodway
