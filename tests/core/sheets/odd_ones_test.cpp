#include "core/sheets/odd_ones.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/sheets/sheet_kinds.h"
#include "tests/core/sheets/sheet_readings.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

std::vector<SheetFinding> odd(const char* quantity, const WrittenReadings& written) {
    const TakenReadings taken(written.all());
    EXPECT_THAT(taken.not_read(), IsEmpty());
    return odd_ones_out(*find_quantity(quantity), taken.of(quantity));
}

WrittenReadings row(const char* quantity, const std::vector<const char*>& texts,
                    const char* behind = "", const char* before = "") {
    WrittenReadings written;
    int place = 0;
    for (const char* text : texts) {
        written.write(quantity, before + std::to_string(++place) + behind, text);
    }
    return written;
}

TEST(OddOnesOut, AnEvenRowHasNone) {
    EXPECT_THAT(
        odd("deck_clearance",
            row("deck_clearance", {".010 down", ".010 down", ".010 down", ".010 down"}, " thrust")),
        IsEmpty());
    EXPECT_THAT(
        odd("main_diameter",
            row("main_diameter", {"2.4480", "2.4481", "2.4480", "2.4479", "2.4480"}, "", "J")),
        IsEmpty());
    EXPECT_THAT(odd("piston_mass", row("piston_mass", {"583.9", "583.9", "583.9", "583.9"})),
                IsEmpty());
}

// One compression of eight at half of the others; their middle is 150 by hand.
TEST(OddOnesOut, TheOneThatStandsApartIsPointedOut) {
    const auto found =
        odd("as_found_compression",
            row("as_found_compression", {"150", "148", "152", "75", "150", "151", "149", "150"}));
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::odd_one_out);
    EXPECT_THAT(found[0].positions, ElementsAre("4"));
    constexpr double psi = 6.894757293168361; // kPa, NIST SP 811
    EXPECT_NEAR(found[0].numbers[0], 75.0 * psi, 1e-9);
    EXPECT_NEAR(found[0].numbers[1], 150.0 * psi, 1e-9);
    EXPECT_EQ(found[0].dimension, Dimension::pressure);
}

// Of three, any could be the odd one.
TEST(OddOnesOut, ARowOfThreeHasNone) {
    EXPECT_THAT(odd("piston_mass", row("piston_mass", {"583.9", "583.9", "600.0"})), IsEmpty());
    EXPECT_THAT(odd("piston_mass", row("piston_mass", {"583.9", "583.9", "583.9", "600.0"})),
                SizeIs(1));
}

TEST(OddOnesOut, IntakesAndExhaustsAreTwoRows) {
    WrittenReadings written;
    for (const char* cylinder : {"1", "2", "3", "4", "5"}) {
        written.write("valve_head_diameter", std::string(cylinder) + "I", "2.020");
    }
    // Exhausts of one kind are no odd ones among the intakes, few as they are.
    written.write("valve_head_diameter", "1E", "1.600").write("valve_head_diameter", "2E", "1.600");
    EXPECT_THAT(odd("valve_head_diameter", written), IsEmpty());
    written.write("valve_head_diameter", "3E", "1.600").write("valve_head_diameter", "4E", "1.640");
    const auto found = odd("valve_head_diameter", written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("4E"));
}

TEST(OddOnesOut, TopAndSecondRingsAreTwoRows) {
    WrittenReadings written;
    for (const char* cylinder : {"1", "2", "3", "4", "5", "6"}) {
        written.write("ring_gap", std::string(cylinder) + " top", ".018");
    }
    written.write("ring_gap", "1 second", ".030");
    EXPECT_THAT(odd("ring_gap", written), IsEmpty());
    written.write("ring_gap", "5 top", ".030");
    EXPECT_THAT(odd("ring_gap", written), SizeIs(1));
}

TEST(OddOnesOut, BoundsAndWordsAreNoNumbersOfTheRow) {
    EXPECT_THAT(odd("rod_to_cam_clearance",
                    row("rod_to_cam_clearance", {".080", ".080", ".080", ">.200", "n/m"})),
                IsEmpty());
}

// Angles, torques and what isn't read cylinder by cylinder needn't be alike.
TEST(OddOnesOut, OtherRowsAreLeftAlone) {
    EXPECT_THAT(odd("seat_angle", row("seat_angle", {"45", "45", "45", "45", "30"}, "I")),
                IsEmpty());
    EXPECT_THAT(odd("turning_torque_with_piston",
                    row("turning_torque_with_piston", {"10", "10", "10", "10", "60"})),
                IsEmpty());
    EXPECT_THAT(odd("break_in_speed", row("break_in_speed", {"2000", "2000", "2000", "2000", "900"},
                                          "", "2026-03-0")),
                IsEmpty());
    EXPECT_FALSE(row_should_be_alike(*find_quantity("deck_height")));
    EXPECT_FALSE(row_should_be_alike(*find_quantity("lobe_lift")));
    EXPECT_FALSE(row_should_be_alike(*find_quantity("bobweight")));
    EXPECT_TRUE(row_should_be_alike(*find_quantity("spring_seat_load")));
}

} // namespace
} // namespace rodway
