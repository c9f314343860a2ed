#include "core/loads/spring_card.h"

#include <gtest/gtest.h>

#include <limits>

namespace rodway {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();

// Arithmetic: 600 N over 12 mm is 50 N/mm.
TEST(SpringCard, SaysByHowMuchAStatedRateIsMoreThanItsLoadsMake) {
    const SpringLoad closed{45.0, 400.0};
    const SpringLoad open{33.0, 1000.0};
    const auto more = compare_rate(52.0, closed, open);
    ASSERT_TRUE(more.has_value());
    EXPECT_DOUBLE_EQ(more->from_loads_N_per_mm, 50.0);
    EXPECT_NEAR(more->stated_more_by, 0.04, 1e-15);
    EXPECT_NEAR(compare_rate(48.0, closed, open)->stated_more_by, -0.04, 1e-15);
}

TEST(SpringCard, NumbersThatMakeNoRateHaveNoAnswer) {
    const SpringLoad closed{45.0, 400.0};
    EXPECT_FALSE(compare_rate(50.0, closed, closed).has_value());
    EXPECT_FALSE(compare_rate(50.0, closed, {46.0, 900.0}).has_value());
    EXPECT_FALSE(compare_rate(50.0, closed, {35.0, 400.0}).has_value());
    EXPECT_FALSE(compare_rate(0.0, closed, {35.0, 900.0}).has_value());
    EXPECT_FALSE(compare_rate(infinity, closed, {35.0, 900.0}).has_value());
    EXPECT_FALSE(compare_rate(50.0, closed, {-infinity, 900.0}).has_value());
    EXPECT_FALSE(compare_rate(50.0, closed, {35.0, nan_value}).has_value());
}

TEST(SpringCard, TwinsContradictEachOtherOnlyBeyondRounding) {
    EXPECT_FALSE(compare_twins({10.0, 0.5}, {10.5, 0.5})->contradict);
    EXPECT_TRUE(compare_twins({10.0, 0.5}, {10.625, 0.5})->contradict);
    EXPECT_TRUE(compare_twins({10.625, 0.5}, {10.0, 0.5})->contradict);
    EXPECT_EQ(compare_twins({10.0, 0.5}, {10.625, 0.5})->first_more_by, -0.625);
    EXPECT_EQ(compare_twins({10.0, 0.5}, {10.625, 0.25})->rounding, 0.375);
    EXPECT_FALSE(compare_twins({10.0, 0.0}, {10.0, 0.0})->contradict);
    EXPECT_FALSE(compare_twins({nan_value, 0.1}, {10.0, 0.1}).has_value());
    EXPECT_FALSE(compare_twins({10.0, 0.1}, {10.0, -0.1}).has_value());
    EXPECT_FALSE(compare_twins({10.0, infinity}, {10.0, 0.1}).has_value());
}

} // namespace
} // namespace rodway
