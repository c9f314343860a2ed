#include "core/engine/hot_fields.h"

#include <gtest/gtest.h>

#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

SetUpFields with(std::initializer_list<std::pair<std::string, TypedValue>> stated) {
    SetUpFields fields;
    for (const auto& [path, value] : demo_fields("v8-port-tubes")) {
        if (path.rfind("hot/", 0) != 0) {
            fields.emplace(path, value);
        }
    }
    for (const auto& [path, value] : stated) {
        fields[path] = value;
    }
    return fields;
}

HotStated read(const SetUpFields& fields) {
    const auto engine = make_engine(fields);
    EXPECT_TRUE(engine.ok()) << (engine ? "" : engine.error().field);
    return *read_hot(fields, *engine);
}

Error refusal(const SetUpFields& fields) {
    const auto made = make_engine(fields);
    EXPECT_FALSE(made.ok());
    return made ? Error{} : made.error();
}

TEST(HotFields, WhatNobodyStatedIsNotKnownAndColdIsTwentyDegrees) {
    const HotStated stated = read(with({}));
    EXPECT_EQ(stated.cold_degC, 20.0); // ISO 1
    for (const HotPart part : hot_parts()) {
        const PartWarmth& warmth = stated.of(part);
        EXPECT_FALSE(warmth.metal || warmth.expansion_per_K || warmth.temperature_degC);
    }
    EXPECT_FALSE(stated.head_gasket_mm || stated.deck_height_mm[0] || stated.intake_face_mm[1]);
    EXPECT_FALSE(stated.seat_to_tip_mm.at({1, ValveKind::intake, 1}));
}

TEST(HotFields, AreReadInTheirOwnUnits) {
    const HotStated stated = read(with({{"hot/cold_temperature", {"68", "degF"}},
                                        {"hot/parts/block/metal", {"grey_iron", ""}},
                                        {"hot/parts/block/temperature", {"185", "degF"}},
                                        {"hot/parts/rod/metal", {"titanium_alloy", ""}},
                                        {"hot/parts/intake_gasket/expansion", {"30", "ppm_K"}},
                                        {"hot/parts/head_gasket/expansion", {"6.5", "ppm_F"}},
                                        {"hot/parts/head_gasket/thickness", {".040", "in"}},
                                        {"hot/parts/exhaust_valve/temperature", {"450", "degC"}},
                                        {"hot/banks/right/deck_height", {"9.980", "in"}},
                                        {"hot/banks/left/intake_face", {"-50", "mm"}},
                                        {"hot/valves/intake/seat_to_tip", {"5.0", "in"}},
                                        {"hot/valves/3I/seat_to_tip", {"5.1", "in"}}}));
    // Rounding of the conversions dominates the tolerances. 68 °F is 20 °C, 185 °F 85 °C; 6.5
    // millionths for a degree Fahrenheit are the 11.7 for a kelvin of Callister's table B.6.
    EXPECT_NEAR(stated.cold_degC, 20.0, 1e-12);
    EXPECT_EQ(*stated.of(HotPart::block).metal, Metal::grey_iron);
    EXPECT_NEAR(*stated.of(HotPart::block).temperature_degC, 85.0, 1e-12);
    EXPECT_EQ(*stated.of(HotPart::rod).metal, Metal::titanium_alloy);
    EXPECT_NEAR(*stated.of(HotPart::intake_gasket).expansion_per_K, 30e-6, 1e-18);
    EXPECT_NEAR(*stated.of(HotPart::head_gasket).expansion_per_K, 11.7e-6, 1e-18);
    EXPECT_NEAR(*stated.head_gasket_mm, 1.016, 1e-12);
    EXPECT_NEAR(*stated.of(HotPart::exhaust_valve).temperature_degC, 450.0, 1e-12);
    EXPECT_FALSE(stated.of(HotPart::intake_valve).temperature_degC);
    EXPECT_FALSE(stated.deck_height_mm[0]);
    EXPECT_NEAR(*stated.deck_height_mm[1], 253.492, 1e-12);
    EXPECT_NEAR(*stated.intake_face_mm[0], -50.0, 1e-12);
    EXPECT_NEAR(*stated.seat_to_tip_mm.at({1, ValveKind::intake, 1}), 127.0, 1e-12);
    EXPECT_NEAR(*stated.seat_to_tip_mm.at({3, ValveKind::intake, 1}), 129.54, 1e-12);
    EXPECT_FALSE(stated.seat_to_tip_mm.at({3, ValveKind::exhaust, 1}));
}

/// Every metal the file knows is the one of that name, none of them another.
TEST(HotFields, EveryMetalIsReadAsItself) {
    const std::vector<std::pair<std::string, double>> listed{
        {"carbon_steel", 11.7},      {"alloy_steel", 12.3},         {"grey_iron", 11.4},
        {"ductile_iron", 11.2},      {"strong_ductile_iron", 10.6}, {"cast_aluminium", 21.5},
        {"wrought_aluminium", 23.6}, {"titanium_alloy", 8.6}}; // Callister, table B.6
    for (const auto& [name, millionths] : listed) {
        const HotStated stated = read(with({{"hot/parts/head/metal", {name, ""}}}));
        EXPECT_NEAR(expansion_per_K(*stated.of(HotPart::head).metal).middle(), millionths * 1e-6,
                    1e-12)
            << name;
    }
}

TEST(HotFields, WrongOnesAreRefusedByName) {
    EXPECT_EQ(refusal(with({{"hot/parts/piston/metal", {"grey_iron", ""}}})).field,
              "hot/parts/piston");
    EXPECT_EQ(refusal(with({{"hot/parts/block/metal", {"wood", ""}}})).code,
              ErrorCode::not_a_choice);
    EXPECT_EQ(refusal(with({{"hot/banks/middle/deck_height", {"9.9", "in"}}})).field,
              "hot/banks/middle");
    EXPECT_EQ(refusal(with({{"hot/valves/9I/seat_to_tip", {"5", "in"}}})).field, "hot/valves/9I");
    EXPECT_EQ(refusal(with({{"hot/parts/block/thickness", {".040", "in"}}})).code,
              ErrorCode::unknown_field);
    const Error hot = refusal(with({{"hot/parts/block/temperature", {"1000", "degF"}}}));
    EXPECT_EQ(hot.code, ErrorCode::out_of_range);
    EXPECT_NEAR(hot.limits->high, 932.0, 1e-9) << "500 °C, in the unit typed";
    EXPECT_NEAR(hot.limits->low, -40.0, 1e-9) << "where both scales meet";
    EXPECT_EQ(refusal(with({{"hot/parts/block/temperature", {"85", "deg"}}})).code,
              ErrorCode::wrong_type);
}

TEST(HotFields, GoThroughTheFileAndBack) {
    const SetUpFields fields = with({{"hot/cold_temperature", {"68", "degF"}},
                                     {"hot/parts/block/metal", {"grey_iron", ""}},
                                     {"hot/parts/block/temperature", {"85.0", "degC"}},
                                     {"hot/parts/intake_gasket/expansion", {"30", "ppm_K"}},
                                     {"hot/parts/head/expansion", {"11.9", "ppm_F"}},
                                     {"hot/valves/3I/seat_to_tip", {"5.1", "in"}}});
    const auto back = read_set_up_file(write_set_up_file(fields));
    ASSERT_TRUE(back.ok()) << back.error().field;
    EXPECT_EQ(*back, fields);
}

} // namespace
} // namespace rodway
