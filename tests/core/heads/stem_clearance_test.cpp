#include "core/heads/stem_clearance.h"

#include <gtest/gtest.h>

#include <limits>

#include "core/units/length.h"

namespace rodway {
namespace {

/// As read in inches, to .0001.
Interval in(double inches) {
    return Interval::read(inches, inches, 0.0001) * Length::mm_per_inch;
}
void expect_thou(const Interval& found, double low, double high) {
    EXPECT_NEAR(Length::mm(found.low).in_thou(), low, 1e-9); // rounding
    EXPECT_NEAR(Length::mm(found.high).in_thou(), high, 1e-9);
}

/// Made up: bell-mouthed below, a stem worn by .0006 in its middle.
GuideAndStem worn() {
    return {{{0.0, in(0.3436), in(0.3414)},
             {25.0, in(0.3432), in(0.3409)},
             {50.0, in(0.3445), in(0.3412)}},
            in(0.3415)};
}

// Worked by hand. Two readings to .0001 in leave .0001 in either way together.
TEST(StemClearance, IsGuideLessStemAtEachDepthAndAtItsWorstAsTheStemSlides) {
    const auto found = stem_clearance(worn());
    ASSERT_TRUE(found.ok());
    ASSERT_EQ(found->at_depths.size(), 3u);
    expect_thou(found->at_depths[0].clearance_mm, 2.1, 2.3);
    expect_thou(found->at_depths[1].clearance_mm, 2.2, 2.4);
    expect_thou(found->at_depths[2].clearance_mm, 3.2, 3.4);
    EXPECT_EQ(found->at_depths[2].depth_mm, 50.0);
    expect_thou(found->tightest_mm, 1.7, 1.9); // .3432 less .3414: neither stands at one depth
    expect_thou(found->loosest_mm, 3.5, 3.7);  // .3445 less .3409
    expect_thou(*found->upper_bell_mm, 0.3, 0.5);
    expect_thou(*found->lower_bell_mm, 1.2, 1.4);
    expect_thou(*found->stem_wear_mm, 0.5, 0.7);
}

TEST(StemClearance, WhatWasNotReadIsNotAnswered) {
    GuideAndStem readings = worn();
    readings.unworn_stem_mm.reset();
    readings.depths[1].stem_mm.reset();
    auto found = stem_clearance(readings);
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->at_depths.size(), 2u);
    EXPECT_FALSE(found->stem_wear_mm.has_value());
    expect_thou(found->loosest_mm, 3.2, 3.4);
    readings.depths[2].bore_mm.reset();
    EXPECT_FALSE(stem_clearance(readings)->lower_bell_mm.has_value());
    EXPECT_FALSE(stem_clearance(readings)->upper_bell_mm.has_value());
    readings.depths.push_back({60.0, in(0.3440), {}});
    found = stem_clearance(readings); // bores at 0, 25 and 60: there is something between the ends
    expect_thou(*found->lower_bell_mm, 0.7, 0.9);
    readings.depths.insert(readings.depths.begin() + 3, {55.0, {}, in(0.3414)});
    readings.depths.push_back({70.0, {}, in(0.3414)});
    EXPECT_FALSE(stem_clearance(readings)->lower_bell_mm.has_value()) << "60 isn't the end";
}

// TP-14: .0010 to .0020 in for an intake, .0015 to .0025 for an exhaust (common practice, no
// source).
TEST(StemClearance, TheUsualBandIsLabelledAsNoMoreThanThat) {
    const Interval clearance = in(0.0023);
    EXPECT_EQ(standing(clearance, usual_stem_clearance_mm(ValveKind::intake)), BandStanding::above);
    EXPECT_EQ(standing(clearance, usual_stem_clearance_mm(ValveKind::exhaust)),
              BandStanding::inside);
    EXPECT_EQ(standing(in(0.0010), usual_stem_clearance_mm(ValveKind::intake)),
              BandStanding::may_be_below);
    EXPECT_EQ(usual_stem_clearance_mm(ValveKind::intake).source, FigureSource::common_practice);
}

TEST(StemClearance, BadReadingsAreNamed) {
    const auto error = [](const GuideAndStem& readings) {
        return stem_clearance(readings).error();
    };
    GuideAndStem readings = worn();
    readings.depths[2].depth_mm = 25.0;
    EXPECT_EQ(error(readings).code, ErrorCode::order_wrong);
    EXPECT_EQ(error(readings).line, 3);
    readings = worn();
    readings.depths[1].bore_mm = Interval::exactly(0.343); // inches taken for millimetres
    EXPECT_EQ(error(readings).field, "bore");
    EXPECT_EQ(error(readings).line, 2);
    readings.depths[1].bore_mm = Interval::exactly(std::numeric_limits<double>::quiet_NaN());
    EXPECT_EQ(error(readings).code, ErrorCode::not_a_number);
    readings = worn();
    readings.unworn_stem_mm = Interval::exactly(0.0);
    EXPECT_EQ(error(readings).field, "unworn_stem");
    EXPECT_EQ(error({{{0.0, {}, in(0.3414)}}, {}}).field, "bore");
    EXPECT_EQ(error({{{0.0, in(0.3432), {}}}, {}}).field, "stem");
    EXPECT_EQ(error({}).code, ErrorCode::too_few_rows);
    readings = worn();
    readings.depths[0].depth_mm = -1.0;
    EXPECT_EQ(error(readings).field, "depth");
}

} // namespace
} // namespace rodway
