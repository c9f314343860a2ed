#include "core/engine/typed_field.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

constexpr const char* warm = "hot/parts/block/temperature";
constexpr const char* modulus = "running/rods/intake/modulus";

void expect_value(const char* path, const char* text, const char* number, const char* unit) {
    const auto value = typed_field(path, text);
    ASSERT_TRUE(value.ok()) << path << " “" << text << "”";
    EXPECT_EQ(value->text, number) << text;
    EXPECT_EQ(value->unit, unit) << text;
}

TEST(TypedField, UnitsAreReadAsPeopleWriteThemAndDigitsKept) {
    expect_value(warm, "85", "85", "degC");
    expect_value(warm, " 85.0 °C ", "85.0", "degC");
    expect_value(warm, "185F", "185", "degF");
    expect_value(warm, "-10 deg F", "-10", "degF");
    expect_value(modulus, "207", "207", "GPa");
    expect_value(modulus, "30 Msi", "30", "Mpsi");
    expect_value(modulus, "30.0 mpsi", "30.0", "Mpsi");
    expect_value("running/masses/intake/rod", "62,5", "62,5", "g");
    expect_value("running/masses/intake/rod", "2.2 OZ", "2.2", "oz");
    expect_value("running/speed", "6500 rpm", "6500", "rpm");
    expect_value("hot/parts/head/expansion", "11.9 ppm/F", "11.9", "ppm_F");
    expect_value("running/rods/intake/wall", ".080", ".080", "in");
    expect_value("running/rods/intake/wall", "2 mm", "2", "mm");
    expect_value("hot/parts/head/metal", "cast_aluminium", "cast_aluminium", "");
}

TEST(TypedField, WhatCantBeReadIsSaidOfItsField) {
    for (const char* text : {"", "warm", "85 K", "85 C 3", "8 5", "1.2.3", "°C", "nan"}) {
        const auto value = typed_field(warm, text);
        ASSERT_FALSE(value.ok()) << text;
        EXPECT_EQ(value.error().code, ErrorCode::not_an_amount);
        EXPECT_EQ(value.error().field, warm);
        EXPECT_EQ(value.error().expected, "degC degF");
    }
    EXPECT_EQ(typed_field("running/speed", "6500 degF").error().expected, "rpm");
    EXPECT_EQ(typed_field("running/rods/intake/wall", "10").error().code, ErrorCode::unit_needed);
    for (const char* text : {"", "wood", "grey", "grey_iron ductile_iron", "iron"}) {
        EXPECT_EQ(typed_field("hot/parts/block/metal", text).error().code, ErrorCode::not_a_choice)
            << text;
    }
}

} // namespace
} // namespace rodway
