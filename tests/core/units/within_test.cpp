#include "core/units/within.h"

#include <gtest/gtest.h>

#include <limits>

namespace rodway {
namespace {

TEST(Within, LimitsThemselvesAreGood) {
    const Limits limits{-1.5, 2.0, "mm"};
    for (const double value : {-1.5, 0.0, 2.0}) {
        EXPECT_FALSE(outside("field", value, limits).has_value()) << value;
    }
}

TEST(Within, NamesFieldValueLimitsAndLine) {
    const auto bad = outside("field", 2.25, {-1.5, 2.0, "mm"}, 7);
    ASSERT_TRUE(bad.has_value());
    EXPECT_EQ(bad->code, ErrorCode::out_of_range);
    EXPECT_EQ(bad->field, "field");
    EXPECT_EQ(bad->value, "2.25");
    EXPECT_EQ(bad->line, 7);
    ASSERT_TRUE(bad->limits.has_value());
    EXPECT_EQ(bad->limits->low, -1.5);
    EXPECT_EQ(bad->limits->high, 2.0);
    EXPECT_EQ(bad->limits->unit, "mm");
    EXPECT_EQ(outside("field", -1.75, {-1.5, 2.0, "mm"})->code, ErrorCode::out_of_range);
    EXPECT_FALSE(outside("field", -1.75, {-1.5, 2.0, "mm"})->line.has_value());
}

TEST(Within, WhatIsNotFiniteIsNoNumber) {
    const double infinity = std::numeric_limits<double>::infinity();
    for (const double value : {std::numeric_limits<double>::quiet_NaN(), infinity, -infinity}) {
        const auto bad = outside("field", value, {-infinity, infinity, {}});
        ASSERT_TRUE(bad.has_value());
        EXPECT_EQ(bad->code, ErrorCode::not_a_number);
    }
}

} // namespace
} // namespace rodway
