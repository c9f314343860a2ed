#include "core/sheets/reading_value.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

Result<ReadingValue> value_of(const char* quantity, const char* text, const char* unit = "",
                              ReadingStatus status = ReadingStatus::measured) {
    Reading reading;
    reading.quantity = quantity;
    reading.text = text;
    reading.unit = unit;
    reading.status = status;
    const Quantity* known = find_quantity(quantity);
    EXPECT_NE(known, nullptr) << quantity;
    return read_value(reading, *known);
}

struct ReadNumber {
    const char* quantity;
    const char* text;
    const char* unit;
    double low;
    double high;
    double resolution;
};

// Factors as in NIST SP 811, App. B, worked out by hand; decimal to binary is what is lost.
TEST(ReadingValue, ComesInTheUnitItsDimensionIsHeldIn) {
    const ReadNumber cases[] = {
        {"main_clearance", ".0025", "in", 0.0635, 0.0635, 0.00254},
        {"main_clearance", ".0025", "", 0.0635, 0.0635, 0.00254},
        {"main_clearance", "0.06", "mm", 0.06, 0.06, 0.01},
        {"main_clearance", "0.06 mm", "in", 0.06, 0.06, 0.01},
        {"main_clearance", ".0020-.0025", "in", 0.0508, 0.0635, 0.00254},
        {"piston_mass", "583.9", "", 583.9, 583.9, 0.1},
        {"piston_mass", "1 lb", "", 453.59237, 453.59237, 453.59237},
        {"chamber_volume", "64,5", "", 64.5, 64.5, 0.1},
        {"chamber_volume", "64\u00b1.5", "", 63.5, 64.5, 1.0},
        {"spring_seat_load", "125", "", 556.0277, 556.0277, 4.4482216},
        {"spring_seat_load", "125 psi", "N", 556.0277, 556.0277, 4.4482216},
        {"spring_seat_load", "340", "N", 340.0, 340.0, 1.0},
        {"prime_pressure", "60", "", 413.68544, 413.68544, 6.8947573},
        {"pull_air_pressure", "28.85", "", 97.697323, 97.697323, 0.03386389},
        {"pull_dry_bulb", "85", "", 29.444444, 29.444444, 0.55555556},
        {"pull_dry_bulb", "25 C", "", 25.0, 25.0, 1.0},
        {"fastener_torque", "65", "", 88.128167, 88.128167, 1.35581795},
        {"turning_torque_crank", "40-45", "", 4.5193932, 5.0843173, 0.11298483},
        {"fastener_angle", "1/4 turn", "", 90.0, 90.0, 90.0},
        {"seat_angle", "45", "", 45.0, 45.0, 1.0},
        {"lobe_centreline", "106.5", "", 106.5, 106.5, 0.1},
        {"lobe_centreline", "53 cam", "", 106.0, 106.0, 2.0},
        {"tdc_stop_reading", "22 BTDC", "", -22.0, -22.0, 1.0},
        {"lobe_event", "60 ABDC", "", 240.0, 240.0, 1.0},
        {"pull_ignition_timing", "34", "", -34.0, -34.0, 1.0},
        {"card_lobe_separation", "108", "", 108.0, 108.0, 1.0},
        {"pull_power", "442", "", 329.59934, 329.59934, 0.74569987},
        {"break_in_time", "20", "", 1200.0, 1200.0, 60.0},
        {"break_in_speed", "2000-3000", "", 2000.0, 3000.0, 1.0},
        {"as_found_leakdown", "8 %", "", 8.0, 8.0, 1.0},
        {"rocker_ratio_measured", "1.58", "", 1.58, 1.58, 0.01},
        {"compression_ratio", "10.25:1", "", 10.25, 10.25, 0.01},
        {"pushrod_checker_turns", "3 1/2", "", 3.5, 3.5, 0.5},
        {"deck_clearance", "-.005", "", -0.127, -0.127, 0.0254},
        {"deck_clearance", "in the hole .015", "", 0.381, 0.381, 0.0254},
        {"deck_clearance", "out .005", "", -0.127, -0.127, 0.0254},
        {"dome_volume", "dish 12", "", -12.0, -12.0, 1.0},
        {"cam_advance_found", "4 retarded", "", -4.0, -4.0, 1.0},
        {"lash_hot", ".026 hot", "", 0.6604, 0.6604, 0.0254},
        {"ring_gap", ".018 light drag", "", 0.4572, 0.4572, 0.0254},
    };
    for (const ReadNumber& each : cases) {
        const auto value = value_of(each.quantity, each.text, each.unit);
        ASSERT_TRUE(value.ok()) << each.quantity << ' ' << each.text;
        EXPECT_TRUE(value->is_number()) << each.text;
        EXPECT_NEAR(value->low, each.low, 1e-7 * std::abs(each.low)) << each.text;
        EXPECT_NEAR(value->high, each.high, 1e-7 * std::abs(each.high)) << each.text;
        EXPECT_NEAR(value->resolution, each.resolution, 1e-7 * each.resolution) << each.text;
        EXPECT_EQ(value->firmness, Firmness::plain) << each.text;
    }
}

// The trade counts both ways, so that a bare number is asked about where the sheet wants a side.
TEST(ReadingValue, AsksForTheSideOfTheDeckAndTheSignOfADome) {
    EXPECT_EQ(value_of("deck_clearance", ".015").error().code, ErrorCode::sign_needed);
    EXPECT_EQ(value_of("deck_clearance", ".015").error().expected, "in_the_hole out");
    EXPECT_EQ(value_of("dome_volume", "12").error().code, ErrorCode::sign_needed);
    EXPECT_EQ(value_of("dome_volume", "12").error().expected, "dome dish");
    EXPECT_EQ(value_of("deck_clearance", "zero")->low, 0.0);
    EXPECT_EQ(value_of("lash_hot", ".026 cold").error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(value_of("ring_gap", "18 and 20").error().code, ErrorCode::two_values);
    EXPECT_EQ(value_of("as_found_lash", "26/28 hot").error().code, ErrorCode::two_values);
}

TEST(ReadingValue, KeepsHowFirmlyItWasStated) {
    EXPECT_EQ(value_of("main_clearance", "~.002")->firmness, Firmness::about);
    EXPECT_EQ(value_of("main_clearance", "<.001")->firmness, Firmness::below);
    EXPECT_DOUBLE_EQ(value_of("main_clearance", "<.001")->high, 0.0254);
    EXPECT_EQ(value_of("prime_pressure", ">60")->firmness, Firmness::above);
}

TEST(ReadingValue, AskWhereALengthHasNoUnit) {
    for (const char* text : {"10", "0,25", "2"}) {
        const auto value = value_of("main_clearance", text, "in");
        ASSERT_FALSE(value.ok()) << text;
        EXPECT_EQ(value.error().code, ErrorCode::unit_needed) << text;
        EXPECT_EQ(value.error().field, "text");
    }
    EXPECT_EQ(value_of("main_clearance", ".010", "mm").error().code, ErrorCode::unit_needed);
    EXPECT_EQ(value_of("main_clearance", "2 mil").error().code, ErrorCode::ambiguous_unit);
}

// Nothing of this may ever be taken for zero.
TEST(ReadingValue, WhatIsNoNumberHasItsOwnName) {
    const std::pair<const char*, Said> cases[] = {
        {"", Said::blank},           {"  ", Said::blank},
        {"-", Said::blank},          {"same", Said::same},
        {"ditto", Said::same},       {"\"", Said::same},
        {"\u2033", Said::same},      {"See Photo", Said::see_photo},
        {"n/m", Said::not_measured}, {"not measured", Said::not_measured},
        {"OK", Said::fine},
    };
    for (const auto& [text, said] : cases) {
        for (const char* quantity : {"main_clearance", "rod_clearance", "fastener_torque",
                                     "rocker_ratio_measured", "adjuster_threads_showing"}) {
            const auto value = value_of(quantity, text);
            ASSERT_TRUE(value.ok()) << quantity << ' ' << text;
            EXPECT_EQ(value->said, said) << quantity << ' ' << text;
            EXPECT_FALSE(value->is_number());
            EXPECT_EQ(value->words, text);
        }
    }
    const auto zero = value_of("deck_clearance", "0");
    ASSERT_TRUE(zero.ok());
    EXPECT_TRUE(zero->is_number());
    EXPECT_EQ(zero->low, 0.0);
}

TEST(ReadingValue, StatusCountsBeforeWhatIsWritten) {
    EXPECT_EQ(value_of("bore", "4.030", "in", ReadingStatus::not_measured)->said,
              Said::not_measured);
    EXPECT_EQ(value_of("bore", "", "in", ReadingStatus::same)->said, Said::same);
    EXPECT_EQ(value_of("bore", "scored", "in", ReadingStatus::see_photo)->said, Said::see_photo);
    EXPECT_TRUE(value_of("bore", "4.030", "in", ReadingStatus::from_the_box)->is_number());
    EXPECT_TRUE(value_of("bore", "4.030", "in", ReadingStatus::assumed)->is_number());
}

TEST(ReadingValue, ReadsClearancesByGaugesTried) {
    const auto between = value_of("rod_clearance", ".008 goes, .010 no", "in");
    ASSERT_TRUE(between.ok());
    EXPECT_DOUBLE_EQ(between->low, 0.2032);
    EXPECT_DOUBLE_EQ(between->high, 0.254);
    const auto goes = value_of("rod_clearance", ".008 goes", "in");
    ASSERT_TRUE(goes.ok());
    EXPECT_EQ(goes->firmness, Firmness::above);
    EXPECT_DOUBLE_EQ(goes->low, 0.2032);
    EXPECT_DOUBLE_EQ(goes->high, 0.2032);
    const auto touch = value_of("piston_to_valve_clearance", "touch", "in");
    ASSERT_TRUE(touch.ok());
    EXPECT_TRUE(touch->is_number());
    EXPECT_EQ(touch->high, 0.0);
    EXPECT_DOUBLE_EQ(value_of("rod_clearance", ".012", "in")->low, 0.3048);
    EXPECT_DOUBLE_EQ(value_of("rod_clearance", ".012", "in")->resolution, 0.0254);
    EXPECT_EQ(value_of("rod_clearance", "-.002", "in").error().code, ErrorCode::out_of_range);
}

TEST(ReadingValue, ReadsWordsChoicesDaysAndYesOrNo) {
    EXPECT_EQ(value_of("bore_finish", "Ra 18, 45 degrees")->words, "Ra 18, 45 degrees");
    EXPECT_EQ(value_of("bore_finish", "ok")->said, Said::words);
    EXPECT_EQ(value_of("piston_to_valve_method", "Clay")->words, "clay");
    EXPECT_EQ(value_of("pull_correction", "none")->words, "none");
    EXPECT_EQ(value_of("oil_at_rocker", "Y")->words, "yes");
    EXPECT_EQ(value_of("oil_at_rocker", "no")->words, "no");
    const auto clay = value_of("piston_to_valve_method", "cla");
    ASSERT_FALSE(clay.ok());
    EXPECT_EQ(clay.error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(clay.error().expected, "clay dial");
    EXPECT_EQ(value_of("oil_at_rocker", "maybe").error().code, ErrorCode::not_a_choice);
    const Quantity day{"made_on", Form::day, Place::engine};
    Reading reading;
    reading.text = "2026-3-1";
    EXPECT_EQ(read_value(reading, day)->words, "2026-03-01");
    reading.text = "3/1/26";
    EXPECT_EQ(read_value(reading, day).error().code, ErrorCode::not_a_date);
    const Quantity count{"valves", Form::count, Place::engine};
    reading.text = "16";
    EXPECT_EQ(read_value(reading, count)->low, 16.0);
    for (const char* text : {"16.5", "-1", "sixteen", "15-16.5"}) {
        reading.text = text;
        EXPECT_EQ(read_value(reading, count).error().code, ErrorCode::not_an_amount) << text;
    }
}

// Far beyond any engine: what is refused is a slip, not an odd engine.
TEST(ReadingValue, RefusesWhatNothingOnAnEngineReaches) {
    for (const char* text : {"-999999999999999999999999", "1001 %", "-0.5"}) {
        const auto leak = value_of("as_found_leakdown", text);
        ASSERT_FALSE(leak.ok()) << text;
        EXPECT_EQ(leak.error().code, ErrorCode::out_of_range) << text;
        EXPECT_EQ(leak.error().field, "text");
        EXPECT_EQ(leak.error().value, text);
        ASSERT_TRUE(leak.error().limits.has_value());
        EXPECT_EQ(leak.error().limits->low, 0.0);
        EXPECT_EQ(leak.error().limits->high, 1000.0);
    }
    EXPECT_TRUE(value_of("as_found_leakdown", "100").ok());
    EXPECT_TRUE(value_of("as_found_leakdown", "0").ok());
    // 10 m, in the unit typed: a crankshaft of a ship is longer than a slip of the keys is short.
    EXPECT_TRUE(value_of("bore", "393 in").ok());
    EXPECT_EQ(value_of("bore", "394 in").error().code, ErrorCode::out_of_range);
    EXPECT_EQ(value_of("fastener_torque", "1e300").ok(), false);
}

TEST(ReadingValue, RefusesWhatTheQuantityCannotMean) {
    const auto torque = value_of("fastener_torque", "65 psi");
    ASSERT_FALSE(torque.ok());
    EXPECT_EQ(torque.error().code, ErrorCode::not_an_amount);
    EXPECT_EQ(torque.error().field, "text");
    EXPECT_EQ(torque.error().value, "65 psi");
    EXPECT_EQ(torque.error().expected, "Nm lb-ft in-lb kgf-m");
    EXPECT_EQ(value_of("rocker_ratio_measured", "1.6:2").error().code, ErrorCode::not_an_amount);
    EXPECT_EQ(value_of("rocker_ratio_measured", "1.6:").error().value, "1.6:");
    EXPECT_EQ(value_of("main_clearance", "snug").error().code, ErrorCode::not_a_length);
    const auto unit = value_of("main_clearance", ".002", "lb-ft");
    ASSERT_FALSE(unit.ok());
    EXPECT_EQ(unit.error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(unit.error().field, "unit");
    EXPECT_EQ(unit.error().expected, "mm in");
}

} // namespace
} // namespace rodway
