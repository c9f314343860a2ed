#include "core/intake/intake_bolts.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/length.h"

namespace rodway {
namespace {

Interval in(double inches) {
    return Interval::about(inches, 0.005) * Length::mm_per_inch;
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}

/// Sizes made up: a bolt of 1 1/8 through 1/2 of flange, gasket and washer; .600 of thread, the
/// rod's passage .750 down.
IntakeBolt right() {
    IntakeBolt bolt;
    bolt.under_head_mm = in(1.125);
    bolt.grip_mm = in(0.500);
    bolt.threaded_mm = in(0.600);
    bolt.passage_mm = in(0.750);
    return bolt;
}

// 67-72chevytrucks.com showpost p=8998399: manifold bolts 1/4 in too long reached into the rods'
// holes and bent one. Worked by hand on made-up sizes.
TEST(IntakeBolts, AQuarterInchTooLongStandsInThePassage) {
    const auto reach = intake_bolt_reach(right(), 0.0);
    ASSERT_TRUE(reach.ok());
    EXPECT_EQ(reach->end, BoltEnd::clear);
    EXPECT_NEAR(inches(reach->into_casting_mm.middle()), 0.625, 1e-9);
    EXPECT_NEAR(inches(reach->into_casting_mm.half_width()), 0.010, 1e-9);
    EXPECT_NEAR(inches(reach->to_passage_mm->low), 0.110, 1e-9);
    EXPECT_NEAR(inches(reach->to_passage_mm->high), 0.140, 1e-9);
    EXPECT_NEAR(inches(reach->engaged_mm.low), 0.595, 1e-9) << "no more than there is thread";
    EXPECT_NEAR(inches(reach->engaged_mm.high), 0.605, 1e-9);
    IntakeBolt longer = right();
    longer.under_head_mm = in(1.375);
    EXPECT_EQ(intake_bolt_reach(longer, 0.0)->end, BoltEnd::in_passage);
    EXPECT_NEAR(inches(intake_bolt_reach(longer, 0.0)->to_passage_mm->middle()), -0.125, 1e-9);
    longer.under_head_mm = in(1.250);
    EXPECT_EQ(intake_bolt_reach(longer, 0.0)->end, BoltEnd::undecided);
}

TEST(IntakeBolts, TheLongestThatMayBeFittedKeepsClearAtItsWorst) {
    const double wanted_mm = Length::inches(0.060).in_mm();
    const auto reach = intake_bolt_reach(right(), wanted_mm);
    ASSERT_TRUE(reach->longest_mm.has_value());
    EXPECT_NEAR(inches(*reach->longest_mm), 0.495 + 0.745 - 0.060, 1e-9);
    // A bolt of that length, grip and passage being what they may be at worst.
    IntakeBolt bolt = right();
    bolt.under_head_mm = Interval::exactly(*reach->longest_mm);
    bolt.grip_mm = Interval::exactly(bolt.grip_mm.low);
    EXPECT_NEAR(intake_bolt_reach(bolt, wanted_mm)->to_passage_mm->low, wanted_mm, 1e-9);
    bolt = right();
    bolt.hole_bottom_mm = in(0.640);
    const auto blind = intake_bolt_reach(bolt, wanted_mm);
    EXPECT_NEAR(inches(blind->to_bottom_mm->middle()), 0.015, 1e-9);
    EXPECT_NEAR(inches(*blind->longest_mm), 0.495 + 0.635, 1e-9) << "the bottom comes first";
}

TEST(IntakeBolts, WhatIsNotKnownIsNotAnswered) {
    IntakeBolt bolt = right();
    bolt.passage_mm.reset();
    const auto reach = intake_bolt_reach(bolt, 1.0);
    EXPECT_EQ(reach->end, BoltEnd::not_known);
    EXPECT_FALSE(reach->to_passage_mm.has_value());
    EXPECT_FALSE(reach->longest_mm.has_value());
    bolt.under_head_mm = in(0.300);
    EXPECT_EQ(intake_bolt_reach(bolt, 1.0)->engaged_mm, Interval::exactly(0.0));
    EXPECT_LT(intake_bolt_reach(bolt, 1.0)->into_casting_mm.high, 0.0);
}

TEST(IntakeBolts, BadReadingsAreNamed) {
    const auto field = [](auto&& change, double wanted_mm = 1.0) {
        IntakeBolt bolt = right();
        change(bolt);
        const auto reach = intake_bolt_reach(bolt, wanted_mm);
        return reach.ok() ? std::string("good") : reach.error().field;
    };
    EXPECT_EQ(field([](auto&) {}), "good");
    EXPECT_EQ(field([](auto& b) { b.under_head_mm.low = 1.0; }), "under_head");
    EXPECT_EQ(field([](auto& b) { b.grip_mm.low = -1.0; }), "grip");
    EXPECT_EQ(field([](auto& b) { b.threaded_mm = {2.0, 1.0}; }), "threaded");
    EXPECT_EQ(field([](auto& b) { b.passage_mm->high = 201.0; }), "passage");
    EXPECT_EQ(field([](auto& b) { b.hole_bottom_mm = Interval::exactly(std::nan("")); }),
              "hole_bottom");
    EXPECT_EQ(field([](auto&) {}, 51.0), "wanted");
}

} // namespace
} // namespace rodway
