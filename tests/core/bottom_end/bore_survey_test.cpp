#include "core/bottom_end/bore_survey.h"

#include <gtest/gtest.h>

#include "core/units/length.h"

namespace rodway {
namespace {

constexpr double step_in = 0.0001;

double inches(double mm) {
    return Length::mm(mm).in_inches();
}

BoreReading reading(int cylinder, int height, int direction, double size_in) {
    return {cylinder,
            {height, direction,
             Interval::around(Length::inches(size_in).in_mm(), Length::inches(step_in).in_mm())}};
}

/// Heights down, directions across: invented.
std::vector<BoreReading> table(int cylinder, const double (&size_in)[3][2]) {
    std::vector<BoreReading> readings;
    for (int height = 0; height < 3; ++height) {
        for (int direction = 0; direction < 2; ++direction) {
            readings.push_back(reading(cylinder, height, direction, size_in[height][direction]));
        }
    }
    return readings;
}

// By hand: along the crank 4.0305 4.0300 4.0301, across 4.0312 4.0304 4.0302. Taper is worst
// across, .0010 from top to bottom; out of round is worst at the top, .0007. The whole range,
// .0012, is neither. Each difference of two readings may be a step more or less.
TEST(BoreSurvey, TaperIsDownTheBoreAndOutOfRoundAroundIt) {
    const auto bores =
        survey_bores(table(3, {{4.0305, 4.0312}, {4.0300, 4.0304}, {4.0301, 4.0302}}));
    ASSERT_TRUE(bores.ok());
    ASSERT_EQ(bores->size(), 1u);
    const CylinderBore& bore = bores->front();
    EXPECT_EQ(bore.cylinder, 3);
    ASSERT_TRUE(bore.taper && bore.out_of_round);
    EXPECT_NEAR(inches(bore.taper->size_mm.low), 0.0009, 1e-9);
    EXPECT_NEAR(inches(bore.taper->size_mm.high), 0.0011, 1e-9);
    EXPECT_EQ(bore.taper->at, 1);
    EXPECT_EQ(bore.taper->widest, 0);
    EXPECT_EQ(bore.taper->narrowest, 2);
    EXPECT_NEAR(inches(bore.out_of_round->size_mm.low), 0.0006, 1e-9);
    EXPECT_NEAR(inches(bore.out_of_round->size_mm.high), 0.0008, 1e-9);
    EXPECT_EQ(bore.out_of_round->at, 0);
    EXPECT_EQ(bore.out_of_round->widest, 1);
    EXPECT_EQ(bore.out_of_round->narrowest, 0);
    EXPECT_NEAR(inches(bore.mean_mm.middle()), 4.0304, 1e-9);
    EXPECT_NEAR(inches(bore.mean_mm.width()), step_in, 1e-9);
    EXPECT_NEAR(inches(bore.least_mm.middle()), 4.0300, 1e-9);
    EXPECT_NEAR(inches(bore.greatest_mm.middle()), 4.0312, 1e-9);
    EXPECT_NEAR(inches(bore.wider_above_mm->middle()), (0.0004 + 0.0010) / 2.0, 1e-9);
    EXPECT_EQ(bore.missing, 0);
}

TEST(BoreSurvey, ATrueBoreMayStillBeAStepOut) {
    const auto bores = survey_bores(table(1, {{4.03, 4.03}, {4.03, 4.03}, {4.03, 4.03}}));
    EXPECT_EQ(bores->front().taper->size_mm.low, 0.0);
    EXPECT_NEAR(inches(bores->front().taper->size_mm.high), step_in, 1e-9);
    EXPECT_EQ(bores->front().out_of_round->size_mm.low, 0.0);
}

TEST(BoreSurvey, WhatWasNotReadIsNotZero) {
    auto readings = table(1, {{4.03, 4.031}, {4.03, 4.03}, {4.03, 4.03}});
    readings.push_back(reading(2, 0, 0, 4.03));
    readings.push_back(reading(2, 1, 0, 4.0295));
    readings.push_back(reading(4, 0, 0, 4.03));
    const auto bores = survey_bores(readings);
    ASSERT_EQ(bores->size(), 3u);
    EXPECT_FALSE((*bores)[1].out_of_round.has_value());
    EXPECT_NEAR(inches((*bores)[1].taper->size_mm.middle()), 0.0005, 1e-9);
    EXPECT_NEAR(inches((*bores)[1].wider_above_mm->middle()), 0.0005, 1e-9);
    EXPECT_EQ((*bores)[1].missing, 4);
    EXPECT_FALSE((*bores)[2].taper.has_value());
    EXPECT_FALSE((*bores)[2].wider_above_mm.has_value());
    EXPECT_EQ((*bores)[2].missing, 5);
}

TEST(BoreSurvey, ARetakeCounts) {
    auto readings = table(1, {{4.0300, 4.0300}, {4.0300, 4.0300}, {4.0400, 4.0300}});
    readings.push_back(reading(1, 2, 0, 4.0300));
    EXPECT_EQ(survey_bores(readings)->front().taper->size_mm.low, 0.0);
    EXPECT_EQ(survey_bores(readings)->front().missing, 0);
}

TEST(BoreSurvey, NamesWhatIsWrong) {
    EXPECT_EQ(survey_bores({}).error().code, ErrorCode::too_few_rows);
    std::vector<BoreReading> readings{reading(1, 0, 0, 4.03), reading(1, 1, 0, 0.15)};
    EXPECT_EQ(survey_bores(readings).error().field, "bore");
    EXPECT_EQ(survey_bores(readings).error().line, 2);
    EXPECT_EQ(survey_bores({reading(0, 0, 0, 4.03)}).error().field, "cylinder");
    EXPECT_EQ(survey_bores({reading(1, -1, 0, 4.03)}).error().field, "along");
    EXPECT_EQ(survey_bores({reading(1, 0, 21, 4.03)}).error().field, "around");
}

} // namespace
} // namespace rodway
