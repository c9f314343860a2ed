#include "core/describe/typed_size.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

class TypedSizeTest : public ::testing::Test {
  protected:
    const EngineDimension& rod = *dimension_called("rod_overall");
    const EngineDimension& lean = *dimension_called("valve_lean");
};

TEST_F(TypedSizeTest, KeepsTheDigitsAsTypedAndFindsTheUnit) {
    const std::vector<std::tuple<const char*, const char*, const char*>> typed{
        {"9.2775", "9.2775", "in"}, {"9.280\"", "9.280", "in"},  {" 9 1/4 ", "9 1/4", "in"},
        {"9.28 in", "9.28", "in"},  {"235.6 mm", "235.6", "mm"}, {"235,6mm", "235,6", "mm"},
        {"9280 thou", "9.28", "in"}};
    for (const auto& [text, digits, unit] : typed) {
        const auto size = read_typed_size(rod, text);
        ASSERT_TRUE(size.ok()) << text;
        EXPECT_EQ(size->value.text, digits) << text;
        EXPECT_EQ(size->value.unit, unit) << text;
        EXPECT_FALSE(size->doubt.has_value());
        EXPECT_EQ(size->source, DoubtSource::measured);
    }
}

TEST_F(TypedSizeTest, ReadsHowWellItIsKnown) {
    const auto measured = read_typed_size(rod, "9.278 ±.005");
    ASSERT_TRUE(measured.ok());
    EXPECT_EQ(measured->doubt->text, ".005");
    EXPECT_EQ(measured->doubt->unit, "in");
    const auto metric = read_typed_size(rod, "235.6 mm +-0.1 ?");
    ASSERT_TRUE(metric.ok());
    EXPECT_EQ(metric->doubt->text, "0.1");
    EXPECT_EQ(metric->doubt->unit, "mm");
    EXPECT_EQ(metric->source, DoubtSource::assumed);
    EXPECT_EQ(read_typed_size(rod, "9.278 box")->source, DoubtSource::from_the_box);
    EXPECT_EQ(read_typed_size(rod, "~9.3")->source, DoubtSource::assumed);
    EXPECT_EQ(read_typed_size(lean, "15° ±.5")->doubt->text, ".5");
    EXPECT_EQ(read_typed_size(lean, "-15")->value.unit, "deg");
}

TEST_F(TypedSizeTest, TheTextForABoxReadsBackAsTheSame) {
    for (const char* text : {"9.2775", "9 1/4", "235.6 mm", "9.278 ±.005", "9.278 ±.005 box",
                             "235.6 mm ±0.1 mm ?", "9.3 usual"}) {
        const auto size = read_typed_size(rod, text);
        ASSERT_TRUE(size.ok()) << text;
        EXPECT_EQ(size_text(*size), text);
        const auto again = read_typed_size(rod, size_text(*size));
        ASSERT_TRUE(again.ok()) << text;
        EXPECT_EQ(again->value, size->value);
        EXPECT_EQ(again->doubt, size->doubt);
        EXPECT_EQ(again->source, size->source);
    }
}

TEST_F(TypedSizeTest, WhatItCannotBeIsRefusedWithTheReason) {
    const auto code = [](const EngineDimension& dimension, const char* text) {
        const auto size = read_typed_size(dimension, text);
        return size.ok() ? std::optional<ErrorCode>() : std::optional(size.error().code);
    };
    EXPECT_EQ(code(rod, ""), ErrorCode::empty_text);
    EXPECT_EQ(code(rod, "9"), ErrorCode::unit_needed);
    EXPECT_EQ(code(rod, "long"), ErrorCode::not_a_length);
    EXPECT_EQ(code(rod, "9.2-9.3"), ErrorCode::two_values);
    EXPECT_EQ(code(rod, "92.78"), ErrorCode::out_of_range);
    EXPECT_EQ(code(rod, "9.278 ±tiny"), ErrorCode::not_a_length);
    EXPECT_EQ(code(rod, "9.278 ±-.002"), ErrorCode::out_of_range);
    EXPECT_EQ(code(lean, "steep"), ErrorCode::not_an_angle);
    EXPECT_EQ(code(lean, "75"), ErrorCode::out_of_range);
    EXPECT_EQ(read_typed_size(rod, "92.78").error().limits->unit, "in");
}

} // namespace
} // namespace rodway
