#include "core/bottom_end/deck_height.h"

#include <gtest/gtest.h>

#include <iostream>
#include <random>

#include "core/engine/crank_slider.h"
#include "core/units/length.h"

namespace rodway {
namespace {

double mm(double inches) {
    return Length::inches(inches).in_mm();
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}
Interval in(double value, double step = 0.001) {
    return Interval::around(mm(value), mm(step));
}

DeckReading piston(int cylinder, double along_in, double one_in, double other_in) {
    return {cylinder, mm(along_in), in(one_in), in(other_in)};
}

/// Invented: one bank, front to rear 4.4 in apart, .010 deeper at the rear, 5 standing .002 off.
std::vector<DeckReading> bank() {
    return {piston(1, 0.0, 0.018, 0.022), piston(3, 4.4, 0.021, 0.025),
            piston(5, 8.8, 0.026, 0.030), piston(7, 13.2, 0.028, 0.032)};
}

// By hand: means .020 .023 .028 .030.
TEST(DeckHeight, RockedBothWaysItIsTheMean) {
    const auto survey = survey_deck(bank());
    ASSERT_TRUE(survey.ok());
    EXPECT_NEAR(inches(survey->cylinders[0].below_mm->middle()), 0.020, 1e-9);
    EXPECT_NEAR(inches(survey->cylinders[0].below_mm->width()), 0.001, 1e-9);
    EXPECT_NEAR(inches(survey->cylinders[0].rocked_mm->middle()), 0.004, 1e-9);
    EXPECT_EQ(survey->measured, 4);
    EXPECT_EQ(survey->nearest, 1);
    EXPECT_EQ(survey->furthest, 7);
    EXPECT_NEAR(inches(survey->spread_mm->low), 0.009, 1e-9);
    EXPECT_NEAR(inches(survey->spread_mm->high), 0.011, 1e-9);
    EXPECT_NEAR(inches(survey->taper_mm->middle()), 0.010, 1e-9);
    // Least squares by hand: slope .0035 in a cylinder, .02525 in the middle.
    ASSERT_TRUE(survey->line.has_value());
    EXPECT_NEAR(inches(survey->line->front_mm), 0.02525 - 1.5 * 0.0035, 1e-9);
    EXPECT_NEAR(inches(survey->line->rear_mm), 0.02525 + 1.5 * 0.0035, 1e-9);
    EXPECT_EQ(survey->line->worst_cylinder, 5);
    EXPECT_NEAR(inches(survey->line->worst_off_mm), 0.028 - (0.02525 + 0.5 * 0.0035), 1e-9);
}

TEST(DeckHeight, OneRockIsNoReading) {
    auto readings = bank();
    readings[0].rocked_other_way_mm.reset();
    const auto survey = survey_deck(readings);
    EXPECT_FALSE(survey->cylinders[0].below_mm.has_value());
    EXPECT_EQ(survey->measured, 3);
    EXPECT_EQ(survey->nearest, 3);
    EXPECT_NEAR(inches(survey->taper_mm->middle()), 0.007, 1e-9); // from 3 to 7
    for (DeckReading& reading : readings) {
        reading.rocked_one_way_mm.reset();
    }
    const auto none = survey_deck(readings);
    EXPECT_EQ(none->measured, 0);
    EXPECT_FALSE(none->nearest.has_value());
    EXPECT_FALSE(none->spread_mm.has_value());
    EXPECT_FALSE(none->taper_mm.has_value());
    EXPECT_EQ(deck_cut(readings, 0.0).error().code, ErrorCode::missing_field);
}

TEST(DeckHeight, ParallelCutBringsTheNearestPistonToTheTarget) {
    const auto cut = deck_cut(bank(), mm(0.005));
    EXPECT_NEAR(inches(cut->parallel_mm), 0.015, 1e-9);
    EXPECT_NEAR(inches(deck_cut(bank(), mm(0.025))->parallel_mm), -0.005, 1e-9); // too high
    // Pistons above the deck want none of it, to stand at zero.
    EXPECT_NEAR(inches(deck_cut(bank(), mm(-0.008))->parallel_mm), 0.028, 1e-9);
}

// Whatever the bank, a straightened cut leaves a line that stands level at the target: the mean of
// the cylinders comes to it, and what is left over has no slope.
TEST(DeckHeight, AStraightenedCutLevelsTheBank) {
    constexpr std::uint64_t seed = 20261207;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> depth_in(-0.010, 0.040);
    for (int round = 0; round < 100; ++round) {
        std::vector<DeckReading> readings;
        for (int at = 0; at < 4; ++at) {
            const double below_in = depth_in(random);
            readings.push_back(piston(at + 1, 4.4 * at, below_in - 0.001, below_in + 0.001));
        }
        const auto survey = *survey_deck(readings);
        const auto cut = *deck_cut(readings, mm(0.005));
        std::vector<DeckReading> after = readings;
        double nearest_in = 1.0;
        for (std::size_t at = 0; at < after.size(); ++at) {
            const double share = static_cast<double>(at) / 3.0;
            const auto taken =
                Interval::exactly(*cut.front_mm + share * (*cut.rear_mm - *cut.front_mm));
            after[at].rocked_one_way_mm = *after[at].rocked_one_way_mm - taken;
            after[at].rocked_other_way_mm = *after[at].rocked_other_way_mm - taken;
            nearest_in =
                std::min(nearest_in, inches(after[at].rocked_one_way_mm->middle()) + 0.001);
        }
        const auto levelled = *survey_deck(after);
        EXPECT_NEAR(inches(levelled.line->front_mm), 0.005, 1e-9);
        EXPECT_NEAR(inches(levelled.line->rear_mm), 0.005, 1e-9);
        EXPECT_NEAR(levelled.line->worst_off_mm, survey.line->worst_off_mm, 1e-9);
        EXPECT_NEAR(inches(*cut.nearest_below_mm), nearest_in, 1e-9);
    }
}

// A plane through four corners has no twist; by hand.
TEST(DeckHeight, CornersSayHowTheDeckLies) {
    DeckCorners corners{in(9.020), in(9.022), in(9.030), in(9.032)};
    auto lie = *deck_lie(corners);
    EXPECT_NEAR(inches(lie.rear_higher_mm->middle()), 0.010, 1e-9);
    EXPECT_NEAR(inches(lie.outboard_higher_mm->middle()), 0.002, 1e-9);
    EXPECT_NEAR(lie.twist_mm->middle(), 0.0, 1e-9);
    EXPECT_NEAR(inches(lie.spread_mm->middle()), 0.012, 1e-9);
    corners.rear_outboard_mm = in(9.035);
    EXPECT_NEAR(inches(deck_lie(corners)->twist_mm->middle()), 0.003, 1e-9);
    corners.front_inboard_mm.reset();
    lie = *deck_lie(corners);
    EXPECT_FALSE(lie.twist_mm.has_value());
    EXPECT_FALSE(lie.rear_higher_mm.has_value());
    EXPECT_NEAR(inches(lie.spread_mm->middle()), 0.013, 1e-9);
    corners.rear_inboard_mm = Interval{9.0, 9.0};
    EXPECT_EQ(deck_lie(corners).error().field, "corner");
}

// SC-2. A worked piston-speed note: rod 6.024, stroke 3.307 in: the pin stands at 7.6775 in at top
// dead centre. A compression height of 1.3125 under a deck of 9.0 leaves .010, the doubts added.
TEST(DeckHeight, TheStackSaysWhatShouldBeFound) {
    const auto stack =
        expected_below_deck(in(9.0, 0.002), in(3.307, 0.002), in(6.024, 0.001), in(1.3125, 0.0005));
    ASSERT_TRUE(stack.ok());
    EXPECT_NEAR(inches(stack->worst_mm.middle()), 9.0 - 7.6775 - 1.3125, 1e-9);
    EXPECT_NEAR(inches(stack->worst_mm.width()), 0.002 + 0.001 + 0.001 + 0.0005, 1e-9);
    EXPECT_LT(stack->likely_mm.width(), stack->worst_mm.width());
    // A second way to the pin's height.
    EXPECT_NEAR(CrankSlider::make(mm(3.307), mm(6.024))->top_height_mm(), mm(7.6775), 1e-9);
}

TEST(DeckHeight, NamesWhatIsWrong) {
    EXPECT_EQ(survey_deck({}).error().code, ErrorCode::too_few_rows);
    auto readings = bank();
    readings[2].cylinder = 1;
    EXPECT_EQ(survey_deck(readings).error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(survey_deck(readings).error().line, 3);
    readings = bank();
    readings[1].rocked_other_way_mm = Interval{60.0, 60.0};
    EXPECT_EQ(survey_deck(readings).error().field, "deck");
    EXPECT_EQ(deck_cut(bank(), 25.0).error().field, "target");
}

} // namespace
} // namespace rodway
