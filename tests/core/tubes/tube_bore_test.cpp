#include "core/tubes/tube_bore.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

constexpr auto top = TubeDepth::top;
constexpr auto middle = TubeDepth::middle;
constexpr auto bottom = TubeDepth::bottom;
constexpr auto along = TubeDirection::along;
constexpr auto across = TubeDirection::across;

Interval mm(double value) {
    return Interval::read(value, value, 0.01);
}

// Made up; worked by hand. Two readings to .01 leave .01 either way.
TEST(TubeBore, SizeTaperAndOvalOfSixReadings) {
    const auto tube = tube_bore({{bottom, across, mm(12.76)},
                                 {top, along, mm(12.80)},
                                 {top, across, mm(12.74)},
                                 {middle, along, mm(12.71)},
                                 {middle, across, mm(12.79)},
                                 {bottom, along, mm(12.72)}});
    ASSERT_TRUE(tube.ok());
    EXPECT_NEAR(tube->least_mm.low, 12.705, 1e-9);
    EXPECT_NEAR(tube->least_mm.high, 12.715, 1e-9);
    EXPECT_NEAR(tube->greatest_mm.middle(), 12.80, 1e-9);
    EXPECT_NEAR(tube->taper_along_mm->low, 0.07, 1e-9);
    EXPECT_NEAR(tube->taper_along_mm->high, 0.09, 1e-9);
    EXPECT_NEAR(tube->taper_across_mm->middle(), -0.02, 1e-9) << "wider at the bottom";
    ASSERT_EQ(tube->sections.size(), 3u);
    EXPECT_NEAR(tube->sections[0].oval_mm->middle(), 0.06, 1e-9);
    EXPECT_NEAR(tube->sections[1].oval_mm->middle(), -0.08, 1e-9) << "longer across";
    EXPECT_EQ(tube->sections[2].depth, bottom);
    EXPECT_NEAR(tube->greatest_oval_mm->low, 0.07, 1e-9);
    EXPECT_NEAR(tube->greatest_oval_mm->high, 0.09, 1e-9);
}

TEST(TubeBore, WhatWasNotReadIsNotAnswered) {
    const auto tube = tube_bore({{top, along, mm(12.80)}, {middle, across, mm(12.79)}});
    ASSERT_TRUE(tube.ok());
    EXPECT_EQ(tube->sections.size(), 2u);
    EXPECT_FALSE(tube->sections[0].across_mm.has_value());
    EXPECT_FALSE(tube->sections[0].oval_mm.has_value());
    EXPECT_FALSE(tube->taper_along_mm.has_value());
    EXPECT_FALSE(tube->greatest_oval_mm.has_value());
    EXPECT_NEAR(tube->least_mm.middle(), 12.79, 1e-9);
}

TEST(TubeBore, BadReadingsAreNamed) {
    EXPECT_EQ(tube_bore({}).error().code, ErrorCode::too_few_rows);
    const auto twice = tube_bore({{top, along, mm(12.8)}, {top, along, mm(12.8)}});
    EXPECT_EQ(twice.error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(twice.error().line, 2);
    EXPECT_EQ(tube_bore({{top, along, mm(0.5)}}).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(tube_bore({{top, along, {12.0, std::nan("")}}}).error().code,
              ErrorCode::not_a_number);
}

} // namespace
} // namespace rodway
