// DV-n and SC-n are rows of published values: where only the formula is published, the number was
// recomputed with 25 digits, which is said beside it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/core/demo_set_ups.h"
#include "tests/core/sheets/kinds/outcome_of.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;
constexpr double ci = 16.387064;

/// DV-6's stack: 4.030 x 3.750 in, 64 cc chamber, 12 cc dish, gasket 4.100 x .039, .005 in down;
/// typed so fine that the doubt of the digits is small.
WrittenReadings whole_stack() {
    WrittenReadings written;
    written.write("bore", "3 top thrust", "4.0300000000")
        .write("stroke", "3", "3.7500000000")
        .write("chamber_volume", "3", "64.00000000")
        .write("dome_volume", "3", "-12.00000000")
        .write("deck_clearance", "3 thrust", "+.0070000000")
        .write("deck_clearance", "3 antithrust", "+.0030000000")
        .write("gasket_bore", "", "4.1000000000")
        .write("gasket_compressed", "", ".0390000000");
    return written;
}

/// 4.000 x 3.480 in; its rod isn't known.
Engine vee_eight() {
    Engine engine = demo_engine("v8-port-tubes");
    engine.layout.bore_mm = 4.0 * in;
    engine.layout.stroke_mm = 3.48 * in;
    engine.connecting_rod_mm.reset();
    return engine;
}

/// A cylinder that is nothing but bore, stroke and a room, flat all over.
WrittenReadings plain(const char* bore, const char* stroke, const char* room) {
    WrittenReadings written;
    written.write("bore", "1", bore)
        .write("stroke", "1", stroke)
        .write("chamber_volume", "1", room)
        .write("dome_volume", "1", "0.00000000 cc")
        .write("deck_clearance", "1", "+.0000000000")
        .write("gasket_volume", "", "0.00000000 cc");
    return written;
}

// DV-6 (recomputed, 1e-9; here the digits typed dominate).
TEST(CompressionSheet, TheWholeStackFromItsReadings) {
    const OutcomeOf sheet("compression", whole_stack());
    EXPECT_NEAR(sheet.middle("compression_ratio", "3"), 10.1696669428, 1e-7);
    EXPECT_NEAR(sheet.middle("clearance_volume", "3"), 85.482817806, 1e-6);
    EXPECT_NEAR(sheet.middle("quench", "3", in), 0.044, 1e-9);
    EXPECT_EQ(sheet.verdict("quench", "3"), SheetVerdict::passed); // .035 to .045
    EXPECT_THAT(sheet.findings(), IsEmpty());
    EXPECT_FALSE(sheet.figure("compression_spread"));
    EXPECT_FALSE(sheet.figure("displacement")); // nobody said how many cylinders there are
}

TEST(CompressionSheet, TheDigitsTypedAreTheRatiosDoubt) {
    WrittenReadings written = whole_stack();
    written.write("chamber_volume", "3", "64");
    const auto ratio = *OutcomeOf("compression", written).figure("compression_ratio", "3");
    // By hand: swept volume over 85.98 and 84.98 cc.
    EXPECT_NEAR(ratio.low, 1.0 + 783.848968615 / 85.982817806, 1e-6);
    EXPECT_NEAR(ratio.high, 1.0 + 783.848968615 / 84.982817806, 1e-6);
}

// DV-1, DV-2: a textbook companion's Examples 3.2 and 3.3, printed 6.531 and 6.000. DV-3, DV-4:
// Arasu, Thermal Engineering, ch. 3, Illustrations 1 (recomputed: the book's π is 3.1415) and 2.
TEST(CompressionSheet, TextbookRatios) {
    const auto ratio = [](const char* bore, const char* stroke, const char* room) {
        return OutcomeOf("compression", plain(bore, stroke, room)).middle("compression_ratio", "1");
    };
    EXPECT_NEAR(ratio("3.2500000000", "4.0000000000", "6.00000000 ci"), 6.5305121, 1e-6);
    // A fifth of the swept volume: 785.39816340 cc of 100 x 100 mm.
    EXPECT_NEAR(ratio("100.0000000 mm", "100.0000000 mm", "157.07963268 cc"), 6.0, 1e-6);
    EXPECT_NEAR(ratio("200.0000000 mm", "300.0000000 mm", "1730.0000000 cc"), 6.4478485, 1e-6);
    // 800 cc of 100 mm bore.
    EXPECT_NEAR(ratio("100.0000000 mm", "101.8591636 mm", "150.0000000 cc"), 6.3333333, 1e-6);
}

// circletrack.com, ctrp_0405 and ctrp_1102: 4.000 x 3.48 in, 5 cc of piston, gasket .020 in (its
// bore isn't printed: 4.000 taken), deck .050 in and 70 cc, printed 9.01; .033 in and 64 cc: 9.97.
// The piston's 5 cc are a dish, minus here: as a dome the second would be over 11.
TEST(CompressionSheet, TwoStacksOfAMagazine) {
    const Engine engine = vee_eight();
    WrittenReadings written;
    written.write("gasket_bore", "", "4.000")
        .write("gasket_compressed", "", ".020")
        .write("chamber_volume", "1", "70.0")
        .write("dome_volume", "1", "5.0 cc dish")
        .write("deck_clearance", "1", "+.050")
        .write("chamber_volume", "2", "64.0")
        .write("dome_volume", "2", "-5.0")
        .write("deck_clearance", "2", "+.033");
    const OutcomeOf sheet("compression", written, &engine);
    EXPECT_NEAR(sheet.middle("compression_ratio", "1"), 9.01, 0.005);
    EXPECT_NEAR(sheet.middle("compression_ratio", "2"), 9.97, 0.005);
    EXPECT_NEAR(sheet.middle("compression_spread", ""), 0.96, 0.01);
    // Cylinders 3 to 8 have no chamber yet.
    EXPECT_FALSE(sheet.figure("compression_ratio", "3"));
    EXPECT_THAT(sheet.needed(), ElementsAre("chamber_volume", "dome_volume", "deck_clearance"));
    EXPECT_THAT(sheet.findings()[0].positions, ElementsAre("3", "4", "5", "6", "7", "8"));
}

// antiqueautoranch.com/montana500/julynewsletter/page4.html: 44.2 cubic inches swept, the piston
// stands up 2.86 (.25895 in of a 3.75 bore), gasket .92; six heads, printed ratios. Tolerance: half
// of the last digit printed.
TEST(CompressionSheet, SixHeadsOverPistonsThatStandProud) {
    const std::pair<const char*, double> heads[] = {{"17.90000 ci", 3.77}, {"15.60000 ci", 4.24},
                                                    {"16.60000 ci", 4.02}, {"13.70000 ci", 4.76},
                                                    {"12.80000 ci", 5.07}, {"12.20000 ci", 5.31}};
    WrittenReadings written;
    written.write("gasket_volume", "", ".9200000 ci").write("compression_target", "", "5.31");
    int number = 0;
    for (const auto& [chamber, printed] : heads) {
        const std::string cylinder = std::to_string(++number);
        written.write("bore", cylinder, "3.750000000")
            .write("stroke", cylinder, "4.001933360") // 44.2 over the bore's area
            .write("chamber_volume", cylinder, chamber)
            .write("dome_volume", cylinder, "0.000000")
            .write("deck_clearance", cylinder, "-.258948629");
    }
    const OutcomeOf sheet("compression", written);
    for (number = 1; number <= 6; ++number) {
        EXPECT_NEAR(sheet.middle("compression_ratio", std::to_string(number)),
                    heads[number - 1].second, 0.005);
    }
    EXPECT_NEAR(sheet.middle("compression_spread", ""), 5.31 - 3.77, 0.01);
    // What the first and last heads differ by; 5.31 is known to .005, .012 ci.
    EXPECT_NEAR(sheet.middle("compression_take_off", "1", ci), 17.9 - 12.2, 0.013);
    // A volume alone has no thickness.
    EXPECT_FALSE(sheet.figure("quench", "1"));
    EXPECT_FALSE(sheet.figure("gasket_for_target", "1"));
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

// By hand from DV-6's volumes: 783.848968615/10 cc are wanted for 11, 7.0979209 less than there
// are; over the bore's area, and over the gasket's.
TEST(CompressionSheet, WhatToTakeOffForARatioWanted) {
    WrittenReadings written = whole_stack();
    written.write("compression_target", "", "11:1")
        .write("head_cut_per_cc", "", ".0060000"); // six thou a cc
    const OutcomeOf sheet("compression", written);
    const double too_much_cc = 85.482817806 - 78.3848968615;
    const auto inches_over = [&](double diameter_in) {
        return too_much_cc / ci / (std::numbers::pi / 4.0 * diameter_in * diameter_in);
    };
    EXPECT_NEAR(sheet.middle("compression_take_off", "3"), too_much_cc, 1e-6);
    EXPECT_NEAR(sheet.middle("deck_cut_for_target", "3", in), inches_over(4.03), 1e-7);
    EXPECT_NEAR(sheet.middle("gasket_for_target", "3", in), 0.039 - inches_over(4.1), 1e-7);
    EXPECT_NEAR(sheet.middle("head_cut_for_target", "3", in), 0.006 * too_much_cc, 1e-6);
    EXPECT_NEAR(sheet.middle("quench_after_deck_cut", "3", in), 0.044 - inches_over(4.03), 1e-7);
    EXPECT_NEAR(sheet.middle("quench_with_target_gasket", "3", in), 0.044 - inches_over(4.1), 1e-7);
    EXPECT_EQ(sheet.verdict("quench_after_deck_cut", "3"), SheetVerdict::failed); // .010 in
    // Done as said, it makes the ratio.
    written.write("deck_clearance", "3 thrust", "-.02695706")
        .write("deck_clearance", "3 antithrust", "-.03095706");
    EXPECT_NEAR(inches_over(4.03), 0.03395706, 5e-9);
    EXPECT_NEAR(OutcomeOf("compression", written).middle("compression_ratio", "3"), 11.0, 1e-4);
}

// What is missing from block and head can't be put back; a chamber can be ground, a gasket be
// thicker. And no gasket is thinner than nothing.
TEST(CompressionSheet, WaysThatCantBeGoneHaveNoFigure) {
    WrittenReadings written = whole_stack();
    written.write("head_cut_per_cc", "", ".006").write("compression_target", "", "9.5");
    const OutcomeOf lower("compression", written);
    EXPECT_LT(lower.middle("compression_take_off", "3"), 0.0);
    EXPECT_GT(lower.middle("gasket_for_target", "3", in), 0.039);
    EXPECT_FALSE(lower.figure("deck_cut_for_target", "3"));
    EXPECT_FALSE(lower.figure("head_cut_for_target", "3"));
    written.write("compression_target", "", "13");
    const OutcomeOf higher("compression", written);
    EXPECT_TRUE(higher.figure("deck_cut_for_target", "3"));
    EXPECT_FALSE(higher.figure("gasket_for_target", "3")); // 20 cc where the gasket has 8
    written.write("compression_target", "", "110");
    const OutcomeOf nonsense("compression", written);
    EXPECT_FALSE(nonsense.figure("compression_take_off", "3"));
    ASSERT_THAT(nonsense.findings(), SizeIs(1));
    EXPECT_EQ(nonsense.findings()[0].what, PointedOut::out_of_range);
    EXPECT_EQ(nonsense.findings()[0].other, "compression_target");
    EXPECT_THAT(nonsense.findings()[0].numbers, ElementsAre(110.0, 2.0, 40.0));
}

TEST(CompressionSheet, NothingUnmeasuredCountsAsZero) {
    for (const auto& [quantity, position] : {std::pair("dome_volume", "3"),
                                             {"chamber_volume", "3"},
                                             {"bore", "3 top thrust"},
                                             {"stroke", "3"},
                                             {"gasket_bore", ""},
                                             {"gasket_compressed", ""}}) {
        WrittenReadings written = whole_stack();
        written.write(quantity, position, "n/m");
        const OutcomeOf sheet("compression", written);
        EXPECT_FALSE(sheet.figure("compression_ratio", "3")) << quantity;
        EXPECT_FALSE(sheet.figure("clearance_volume", "3")) << quantity;
        EXPECT_THAT(sheet.needed(), ElementsAre(quantity));
    }
    WrittenReadings one_way = whole_stack();
    one_way.write("deck_clearance", "3 antithrust", "n/m");
    const OutcomeOf sheet("compression", one_way);
    EXPECT_FALSE(sheet.figure("compression_ratio", "3"));
    EXPECT_FALSE(sheet.figure("quench", "3"));
    EXPECT_THAT(sheet.needed(), ElementsAre("deck_clearance"));
    // Where this sheet hasn't been begun, it asks for nothing.
    WrittenReadings chamber_only;
    chamber_only.write("chamber_volume", "3", "64.0");
    EXPECT_THAT(OutcomeOf("compression", chamber_only).findings(), IsEmpty());
}

// By hand: 1.5 cc more room.
TEST(CompressionSheet, ACreviceCountsWhereItWasRead) {
    WrittenReadings written = whole_stack();
    written.write("crevice_volume", "", "n/m");
    EXPECT_NEAR(OutcomeOf("compression", written).middle("compression_ratio", "3"), 10.1696669428,
                1e-7);
    written.write("crevice_volume", "", "1.50000000");
    EXPECT_NEAR(OutcomeOf("compression", written).middle("compression_ratio", "3"),
                1.0 + 783.848968615 / 86.982817806, 1e-6);
}

// By hand: a flat piston typed as "0 cc" is known to half a cc either way.
TEST(CompressionSheet, ATypedZeroIsRoundedToo) {
    WrittenReadings written = whole_stack();
    written.write("dome_volume", "3", "0 cc").write("crevice_volume", "", "0 cc");
    const OutcomeOf sheet("compression", written);
    EXPECT_THAT(sheet.findings(), IsEmpty());
    const auto ratio = *sheet.figure("compression_ratio", "3");
    const double flat_cc = 85.482817806 - 12.0;
    EXPECT_NEAR(ratio.high, 1.0 + 783.848968615 / (flat_cc - 0.5), 1e-6);
    EXPECT_NEAR(ratio.low, 1.0 + 783.848968615 / (flat_cc + 0.5 + 0.5), 1e-6); // and the crevice's
}

TEST(CompressionSheet, AGasketSmallerThanTheBoreIsPointedOut) {
    WrittenReadings written = whole_stack();
    written.write("gasket_bore", "", "4.000");
    const OutcomeOf sheet("compression", written);
    ASSERT_THAT(sheet.findings(), SizeIs(1));
    EXPECT_EQ(sheet.findings()[0].what, PointedOut::too_small_beside);
    EXPECT_EQ(sheet.findings()[0].other, "bore");
    EXPECT_NEAR(sheet.findings()[0].numbers[0], 4.0 * in, 1e-9);
    EXPECT_NEAR(sheet.findings()[0].numbers[1], 4.03 * in, 1e-9);
    written.write("gasket_bore", "", "4.030"); // may be as large
    EXPECT_THAT(OutcomeOf("compression", written).findings(), IsEmpty());
}

TEST(CompressionSheet, AReadingThatCantBeIsPointedOutInItsOwnTerms) {
    WrittenReadings written = whole_stack();
    written.write("dome_volume", "3", "-6000 cc");
    const OutcomeOf dish("compression", written);
    EXPECT_FALSE(dish.figure("compression_ratio", "3"));
    ASSERT_THAT(dish.findings(), SizeIs(1));
    EXPECT_EQ(dish.findings()[0].what, PointedOut::out_of_range);
    EXPECT_EQ(dish.findings()[0].quantity, "compression_ratio");
    EXPECT_EQ(dish.findings()[0].other, "dome_volume");
    EXPECT_THAT(dish.findings()[0].numbers, ElementsAre(-6000.0, -5000.0, 0.0));
    written.write("dome_volume", "3", "dome 80.0 cc"); // more than the room there is
    const OutcomeOf dome("compression", written);
    ASSERT_THAT(dome.findings(), SizeIs(1));
    EXPECT_EQ(dome.findings()[0].other, "clearance_volume");
    EXPECT_LT(dome.findings()[0].numbers[0], 0.0);
}

// DV-5. 4.000 x 3.480 in, eight cylinders (Heywood, eqs. 2.1 to 2.3; recomputed, 1e-10).
TEST(CompressionSheet, DisplacementOfTheSetUp) {
    const Engine engine = vee_eight();
    WrittenReadings written;
    EXPECT_NEAR(OutcomeOf("compression", written, &engine).middle("displacement", "", ci),
                349.847757904, 1e-7);
    written.write("displacement", "", "350"); // as everybody calls it
    EXPECT_THAT(OutcomeOf("compression", written, &engine).findings(), IsEmpty());
    written.write("displacement", "", "355");
    const OutcomeOf stated("compression", written, &engine);
    ASSERT_THAT(stated.findings(), SizeIs(1));
    EXPECT_EQ(stated.findings()[0].what, PointedOut::stated_differs);
    // Wear is not another size; thirty over is: by hand 4.030 for 4.000 in one bore of eight.
    written.write("displacement", "", "350").write("bore", "5 top thrust", "4.0021");
    EXPECT_THAT(OutcomeOf("compression", written, &engine).findings(), IsEmpty());
    written.write("bore", "5 top thrust", "4.0300");
    const OutcomeOf bored("compression", written, &engine);
    ASSERT_THAT(bored.findings(), SizeIs(1));
    EXPECT_EQ(bored.findings()[0].what, PointedOut::methods_differ);
    EXPECT_EQ(bored.findings()[0].quantity, "displacement");
    EXPECT_NEAR(bored.findings()[0].numbers[0] / ci, 349.847757904, 1e-7);
    const double one_bored = 349.847757904 / 8.0 * (7.0 + 4.03 * 4.03 / 16.0);
    EXPECT_NEAR((bored.findings()[0].numbers[1] + bored.findings()[0].numbers[2]) / 2.0 / ci,
                one_bored, 1e-4);
}

TEST(CompressionSheet, DisplacementWithoutASetUpNeedsEveryCylinder) {
    WrittenReadings written;
    for (const char* cylinder : {"1", "2", "3", "4"}) {
        written.write("bore", std::string(cylinder) + " top thrust", "4.00000000")
            .write("stroke", cylinder, "3.48000000");
    }
    EXPECT_FALSE(OutcomeOf("compression", written).figure("displacement"));
    written.write("firing_order", "", "1-8-4-3-6-5-7-2");
    EXPECT_FALSE(OutcomeOf("compression", written).figure("displacement"));
    written.write("firing_order", "", "1342");
    EXPECT_NEAR(OutcomeOf("compression", written).middle("displacement", "", ci),
                349.847757904 / 2.0, 1e-5);
    written.write("stroke", "3", "n/m");
    EXPECT_FALSE(OutcomeOf("compression", written).figure("displacement"));
}

// SC-16. Stroke 3.48, rod 5.7 in: 135° from the top the piston is 3.1047391499 in down (Heywood,
// eq. 2.5; recomputed, 1e-9 in), and 45° past the bottom, 225 past the top, it is there again.
TEST(CompressionSheet, TheDynamicRatioIsFromWhereTheIntakeShuts) {
    const Engine engine = vee_eight();
    WrittenReadings written;
    written.write("gasket_bore", "", "4.1000000000")
        .write("gasket_compressed", "", ".0390000000")
        .write("chamber_volume", "1", "64.00000000")
        .write("dome_volume", "1", "-12.00000000")
        .write("deck_clearance", "1", "+.0050000000")
        .write("dynamic_intake_closing", "", "225.00000");
    // Lift and rod are wanted: without them nothing is assumed.
    const OutcomeOf bare("compression", written, &engine);
    EXPECT_FALSE(bare.figure("dynamic_compression_ratio", "1"));
    EXPECT_THAT(bare.needed(),
                ::testing::IsSupersetOf({"connecting_rod_length", "dynamic_closing_lift"}));
    written.write("dynamic_closing_lift", "", ".050")
        .write("connecting_rod_length", "1", "5.7000000000");
    const double clearance_cc =
        OutcomeOf("compression", written, &engine).middle("clearance_volume", "1");
    const double left_cc = std::numbers::pi / 4.0 * 16.0 * 3.1047391499 * ci;
    const double wanted = (left_cc + clearance_cc) / clearance_cc;
    EXPECT_NEAR(OutcomeOf("compression", written, &engine).middle("dynamic_compression_ratio", "1"),
                wanted, 1e-5);
    for (const char* same : {"45.00000 ABDC", "135.00000 BTDC"}) {
        written.write("dynamic_intake_closing", "", same);
        EXPECT_NEAR(
            OutcomeOf("compression", written, &engine).middle("dynamic_compression_ratio", "1"),
            wanted, 1e-5)
            << same;
    }
    // Without the word it is 45 after the top: no valve shuts there.
    written.write("dynamic_intake_closing", "", "45");
    const OutcomeOf early("compression", written, &engine);
    EXPECT_FALSE(early.figure("dynamic_compression_ratio", "1"));
    const auto refused = early.findings(PointedOut::out_of_range);
    ASSERT_THAT(refused, SizeIs(1));
    EXPECT_EQ(refused[0].other, "dynamic_intake_closing");
    EXPECT_NEAR(refused[0].numbers[1], 120.0, 1e-9); // from 60 before the bottom
    EXPECT_NEAR(refused[0].numbers[2], 330.0, 1e-9);
}

TEST(CompressionSheet, ARodOfTheSetUpServesWhereNoneWasRead) {
    Engine engine = vee_eight();
    engine.connecting_rod_mm = 5.7 * in;
    WrittenReadings written;
    written.write("gasket_volume", "", "8.0")
        .write("chamber_volume", "1", "64.0")
        .write("dome_volume", "1", "0.0")
        .write("deck_clearance", "1", "+.005")
        .write("dynamic_intake_closing", "", "60.00 ABDC")
        .write("dynamic_closing_lift", "", ".006");
    // Heywood, eq. 2.5 (own arithmetic): 120 degrees from the top a 5.7 in rod leaves 2.8127916 in
    // of the stroke, a 6.5 in rod 2.7870814. Tolerance: the digits of the room.
    const auto left_in = [&] {
        const OutcomeOf sheet("compression", written, &engine);
        const double clearance_cc = sheet.middle("clearance_volume", "1");
        return (sheet.middle("dynamic_compression_ratio", "1") - 1.0) * clearance_cc / ci /
               (std::numbers::pi / 4.0 * 16.0);
    };
    EXPECT_NEAR(left_in(), 2.8127916, 0.002);
    written.write("connecting_rod_length", "1", "6.500");
    EXPECT_NEAR(left_in(), 2.7870814, 0.002);
}

} // namespace
} // namespace rodway
