#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/outcome_of.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;

// By hand. Rocked both ways and averaged is the trade's way: common practice, no source.
TEST(DeckSheet, TheMeanOfBothWaysTakesTheRockingOut) {
    WrittenReadings written;
    written.write("deck_clearance", "1 thrust", "in the hole .004")
        .write("deck_clearance", "1 antithrust", "+.009")
        .write("deck_clearance", "2 thrust", ".003 out")
        .write("deck_clearance", "2 antithrust", "+.001");
    const OutcomeOf sheet("deck", written);
    EXPECT_NEAR(sheet.figure("deck_clearance_mean", "1")->low, 0.0060 * in, 1e-9);
    EXPECT_NEAR(sheet.figure("deck_clearance_mean", "1")->high, 0.0070 * in, 1e-9);
    EXPECT_NEAR(sheet.middle("deck_rock", "1", in), 0.005, 1e-9);
    // A piston that stands out is minus.
    EXPECT_NEAR(sheet.middle("deck_clearance_mean", "2", in), -0.001, 1e-9);
    EXPECT_NEAR(sheet.middle("deck_rock", "2", in), 0.004, 1e-9);
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

TEST(DeckSheet, OneWayAloneIsNoMean) {
    WrittenReadings written;
    written.write("deck_clearance", "1 thrust", "+.004")
        .write("deck_clearance", "1 antithrust", "n/m")
        .write("deck_clearance", "2", "+.006")
        .write("deck_clearance", "3 front", "+.004")
        .write("deck_clearance", "3 rear", "+.006")
        .write("deck_clearance", "3 thrust", "+.020");
    const OutcomeOf sheet("deck", written);
    EXPECT_FALSE(sheet.figure("deck_clearance_mean", "1"));
    EXPECT_FALSE(sheet.figure("deck_rock", "1"));
    EXPECT_NEAR(sheet.middle("deck_clearance_mean", "2", in), 0.006, 1e-9);
    EXPECT_FALSE(sheet.figure("deck_rock", "2"));
    // The tilt of one side would be in it.
    EXPECT_FALSE(sheet.figure("deck_clearance_mean", "3"));
    written.write("deck_clearance", "3 antithrust", "-.010");
    EXPECT_NEAR(OutcomeOf("deck", written).middle("deck_clearance_mean", "3", in), 0.005, 1e-9);
}

// By hand: means .0050, .0070 and .0055, each known to half of .001; .002 to .003 in is good
// (common practice, no source).
TEST(DeckSheet, TheSpreadOfTheMeansIsJudged) {
    WrittenReadings written;
    written.write("deck_clearance", "1", "+.0050").write("deck_clearance", "2", "n/m");
    EXPECT_FALSE(OutcomeOf("deck", written).figure("deck_clearance_spread"));
    written.write("deck_clearance", "3", "+.0070").write("deck_clearance", "4", "+.0055");
    const OutcomeOf close("deck", written);
    EXPECT_NEAR(close.figure("deck_clearance_spread")->low, 0.0019 * in, 1e-9);
    EXPECT_NEAR(close.figure("deck_clearance_spread")->high, 0.0021 * in, 1e-9);
    EXPECT_EQ(close.verdict("deck_clearance_spread"), SheetVerdict::passed);
    written.write("deck_clearance", "4", "+.0010"); // a retake counts
    const OutcomeOf far("deck", written);
    EXPECT_NEAR(far.middle("deck_clearance_spread", "", in), 0.006, 1e-9);
    EXPECT_EQ(far.verdict("deck_clearance_spread"), SheetVerdict::failed);
    written.write("deck_clearance", "4", "+.004");
    EXPECT_EQ(OutcomeOf("deck", written).verdict("deck_clearance_spread"), SheetVerdict::too_close);
}

TEST(DeckSheet, AMeanThatIsNotTheSidesIsPointedOut) {
    WrittenReadings written;
    written.write("deck_clearance", "1 thrust", "+.004")
        .write("deck_clearance", "1 antithrust", "+.008")
        .write("deck_clearance", "1", "+.006")
        .write("deck_clearance_mean", "1", "+.006");
    EXPECT_THAT(OutcomeOf("deck", written).findings(), IsEmpty());
    written.write("deck_clearance", "1", "+.012");
    const OutcomeOf over_pin("deck", written);
    ASSERT_THAT(over_pin.findings(), SizeIs(1));
    EXPECT_EQ(over_pin.findings()[0].what, PointedOut::methods_differ);
    EXPECT_THAT(over_pin.findings()[0].positions, ElementsAre("1"));
    EXPECT_NEAR(over_pin.findings()[0].numbers[0], 0.012 * in, 1e-9);
    written.write("deck_clearance", "1", "+.006").write("deck_clearance_mean", "1", "+.012");
    const OutcomeOf by_hand("deck", written);
    ASSERT_THAT(by_hand.findings(), SizeIs(1));
    EXPECT_EQ(by_hand.findings()[0].what, PointedOut::stated_differs);
}

} // namespace
} // namespace rodway
