#include "core/heads/chamber_survey.h"

#include <gtest/gtest.h>

#include "core/units/volume.h"

namespace rodway {
namespace {

Interval ci(double value) {
    return Interval::read(value, value, 0.1) * Volume::cc_per_cubic_inch;
}

// antiqueautoranch.com/montana500/julynewsletter/page4.html: heads of 17.9, 15.6, 16.6, 13.7, 12.8
// and 12.2 cubic inches; a piston that stands up 2.86, a gasket of .92 and 44.2 swept make ratios
// of 3.77, 4.24, 4.02, 4.76, 5.07 and 5.31. Six heads there, six chambers here. Spread and mean are
// this project's arithmetic: 5.7 and 88.8/6.
TEST(ChamberSurvey, SpreadAndWhatEachLacksOfTheLargest) {
    const double heads_ci[] = {17.9, 15.6, 16.6, 13.7, 12.8, 12.2};
    const double ratios[] = {3.77, 4.24, 4.02, 4.76, 5.07, 5.31};
    std::vector<ChamberReading> readings;
    readings.reserve(6);
    for (int at = 0; at < 6; ++at) {
        readings.push_back({at + 1, ci(heads_ci[at])});
    }
    const auto survey = survey_chambers(readings);
    ASSERT_TRUE(survey.ok());
    const auto in_ci = [](const Interval& cc) { return cc / Volume::cc_per_cubic_inch; };
    EXPECT_NEAR(in_ci(survey->spread_cc).low, 5.6, 1e-9);
    EXPECT_NEAR(in_ci(survey->spread_cc).high, 5.8, 1e-9);
    EXPECT_NEAR(in_ci(survey->mean_cc).middle(), 14.8, 1e-9);
    EXPECT_NEAR(in_ci(survey->mean_cc).half_width(), 0.05, 1e-9);
    EXPECT_NEAR(in_ci(survey->least_cc).middle(), 12.2, 1e-9);
    EXPECT_NEAR(in_ci(survey->greatest_cc).middle(), 17.9, 1e-9);
    EXPECT_NEAR(in_ci(survey->chambers[3].below_largest_cc).low, 4.1, 1e-9);
    EXPECT_NEAR(in_ci(survey->chambers[3].below_largest_cc).high, 4.3, 1e-9);
    EXPECT_EQ(survey->chambers[0].below_largest_cc, Interval::exactly(0.0)) << "it is the largest";
    EXPECT_NEAR(in_ci(survey->chambers[5].from_mean_cc).middle(), 12.2 - 14.8, 1e-9);
    // Its own doubt counts by 5/6, those of the five others by 1/6 each.
    EXPECT_NEAR(in_ci(survey->chambers[5].from_mean_cc).half_width(), 0.05 * 10.0 / 6.0, 1e-9);
    for (std::size_t at = 0; at < 6; ++at) {
        const SurveyedChamber& chamber = survey->chambers[at];
        EXPECT_EQ(chamber.cylinder, static_cast<int>(at) + 1);
        // The page's own ratios from the volumes that were kept: nothing was mixed up or converted.
        const double clearance_ci = in_ci(chamber.volume_cc).middle() + 0.92 - 2.86;
        EXPECT_NEAR(1.0 + 44.2 / clearance_ci, ratios[at], 0.005);
    }
}

TEST(ChamberSurvey, TwoThatMayBeEqualMayLackNothing) {
    const auto survey = survey_chambers({{1, {63.9, 64.1}}, {2, {64.0, 64.2}}});
    ASSERT_TRUE(survey.ok());
    EXPECT_NEAR(survey->chambers[0].below_largest_cc.low, 0.0, 1e-12);
    EXPECT_NEAR(survey->chambers[0].below_largest_cc.high, 0.3, 1e-12);
    EXPECT_NEAR(survey->chambers[1].below_largest_cc.high, 0.1, 1e-12);
    EXPECT_EQ(survey->spread_cc.low, 0.0);
    const auto alone = survey_chambers({{3, {63.9, 64.1}}});
    EXPECT_EQ(alone->spread_cc, Interval::exactly(0.0));
    EXPECT_EQ(alone->chambers[0].from_mean_cc, Interval::exactly(0.0));
}

TEST(ChamberSurvey, BadReadingsAreNamed) {
    EXPECT_EQ(survey_chambers({}).error().code, ErrorCode::too_few_rows);
    const auto twice = survey_chambers({{1, {64.0, 64.1}}, {1, {64.0, 64.1}}});
    EXPECT_EQ(twice.error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(twice.error().line, 2);
    EXPECT_EQ(survey_chambers({{1, {0.0, 64.1}}}).error().field, "volume");
}

} // namespace
} // namespace rodway
