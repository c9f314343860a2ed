#include "core/valvetrain/rod_ends.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

namespace rodway {
namespace {

constexpr double inch = 25.4;
constexpr double rounding_mm = 1e-9;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();
using D = LengthDefinition;

/// Two 5/16 balls, and gauges with a hole of .140.
Pushrod two_balls() {
    Pushrod rod;
    rod.lower_ball_diameter_mm = 5.0 / 16.0 * inch;
    rod.upper_ball_diameter_mm = 5.0 / 16.0 * inch;
    rod.gauge_hole_mm = 0.140 * inch;
    return rod;
}

/// A 5/16 ball below, above a cup .150 deep for a 3/8 ball.
Pushrod with_cup() {
    Pushrod rod = two_balls();
    rod.upper_ball_diameter_mm = 3.0 / 8.0 * inch;
    rod.cup_at_top = true;
    rod.cup_depth_mm = 0.150 * inch;
    return rod;
}

double beyond_in(const Pushrod& rod, D definition) {
    const auto beyond = beyond_centres_mm(rod, definition);
    EXPECT_TRUE(beyond.ok());
    return beyond.ok() ? *beyond / inch : nan;
}

// Worked by hand from the definitions in pushrod_length.h.
TEST(RodEnds, EachDefinitionAddsWhatTheEndsMake) {
    EXPECT_EQ(beyond_in(two_balls(), D::between_centres), 0.0);
    EXPECT_NEAR(beyond_in(two_balls(), D::overall), 0.3125, rounding_mm);
    EXPECT_NEAR(beyond_in(two_balls(), D::effective), 0.3125, rounding_mm);
    EXPECT_NEAR(beyond_in(two_balls(), D::gauge), 2.0 * 0.1396927, 1e-7); // its last digit
    EXPECT_NEAR(beyond_in(with_cup(), D::overall), 0.15625 - 0.0375, rounding_mm);
    EXPECT_NEAR(beyond_in(with_cup(), D::effective), 0.15625 - 0.1875, rounding_mm);
    // The two balls are not confused.
    Pushrod unlike = two_balls();
    unlike.upper_ball_diameter_mm = 0.375 * inch;
    EXPECT_NEAR(beyond_in(unlike, D::overall), 0.15625 + 0.1875, rounding_mm);
}

TEST(RodEnds, OnlyTheSizesThatADefinitionNeedsAreAskedFor) {
    const Pushrod nothing;
    EXPECT_TRUE(beyond_centres_mm(nothing, D::between_centres).ok());
    Pushrod rod = with_cup();
    rod.cup_depth_mm.reset();
    rod.gauge_hole_mm.reset();
    EXPECT_TRUE(beyond_centres_mm(rod, D::effective).ok());
    Pushrod balls = two_balls();
    balls.gauge_hole_mm.reset();
    EXPECT_TRUE(beyond_centres_mm(balls, D::overall).ok());
}

TEST(RodEnds, WhatIsMissingOrCannotBeIsNamedAsInASetUp) {
    struct Case {
        const char* what;
        Pushrod rod;
        D definition;
        ErrorCode code;
        const char* field;
    };
    const auto changed = [](Pushrod rod, auto change) {
        change(rod);
        return rod;
    };
    using C = ErrorCode;
    const Case cases[] = {
        {"no lower ball",
         changed(two_balls(), [](Pushrod& rod) { rod.lower_ball_diameter_mm.reset(); }), D::overall,
         C::missing_field, "lower_ball"},
        {"no upper ball",
         changed(two_balls(), [](Pushrod& rod) { rod.upper_ball_diameter_mm.reset(); }), D::gauge,
         C::missing_field, "upper_ball"},
        {"a cup without the adjuster's ball",
         changed(with_cup(), [](Pushrod& rod) { rod.upper_ball_diameter_mm.reset(); }),
         D::effective, C::missing_field, "upper_ball"},
        {"no depth", changed(with_cup(), [](Pushrod& rod) { rod.cup_depth_mm.reset(); }),
         D::overall, C::missing_field, "cup_depth"},
        {"no hole", changed(two_balls(), [](Pushrod& rod) { rod.gauge_hole_mm.reset(); }), D::gauge,
         C::missing_field, "gauge_hole"},
        {"a gauge on a cup", with_cup(), D::gauge, C::not_a_choice, "top_end"},
        {"a hole wider than the ball",
         changed(two_balls(), [](Pushrod& rod) { rod.gauge_hole_mm = 8.0; }), D::gauge,
         C::out_of_range, "gauge_hole"},
        {"a cup deeper than its ball",
         changed(with_cup(), [](Pushrod& rod) { rod.cup_depth_mm = 10.0; }), D::overall,
         C::out_of_range, "cup_depth"},
        {"no number", changed(two_balls(), [](Pushrod& rod) { rod.lower_ball_diameter_mm = nan; }),
         D::overall, C::out_of_range, "lower_ball"},
        {"no end",
         changed(two_balls(), [](Pushrod& rod) { rod.upper_ball_diameter_mm = infinity; }),
         D::effective, C::out_of_range, "upper_ball"},
    };
    for (const Case& known : cases) {
        const auto refused = beyond_centres_mm(known.rod, known.definition);
        ASSERT_FALSE(refused.ok()) << known.what;
        EXPECT_EQ(static_cast<int>(refused.error().code), static_cast<int>(known.code))
            << known.what;
        EXPECT_EQ(refused.error().field, known.field) << known.what;
        const auto length = centres_length_mm(200.0, known.rod, known.definition);
        ASSERT_FALSE(length.ok()) << known.what;
        EXPECT_EQ(length.error().field, known.field) << known.what;
    }
}

TEST(RodEnds, ALengthThatLeavesNoRodIsRefusedWithItsOwnLimits) {
    for (const double length_mm : {nan, infinity, -infinity, -8.0, 0.0, 32.0, 1008.0, 1e300}) {
        const auto refused = centres_length_mm(length_mm, two_balls(), D::overall);
        ASSERT_FALSE(refused.ok()) << length_mm;
        EXPECT_EQ(refused.error().field, "length");
        ASSERT_TRUE(refused.error().limits.has_value());
        // 25 to 1000 between centres, and two tips of .15625 in.
        EXPECT_NEAR(refused.error().limits->low, 25.0 + 0.3125 * inch, rounding_mm);
        EXPECT_NEAR(refused.error().limits->high, 1000.0 + 0.3125 * inch, rounding_mm);
    }
    EXPECT_TRUE(centres_length_mm(33.0, two_balls(), D::overall).ok());
    EXPECT_TRUE(centres_length_mm(1007.0, two_balls(), D::overall).ok());
}

// pushrod_length.h converts the same rods by another way in.
TEST(RodEnds, AgreesWithPlainConversion) {
    const std::uint64_t seed = 77;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    for (int time = 0; time < 500; ++time) {
        Pushrod rod;
        rod.lower_ball_diameter_mm = between(5.0, 12.0);
        rod.upper_ball_diameter_mm = between(5.0, 12.0);
        rod.cup_at_top = time % 2 == 1;
        rod.cup_depth_mm = between(0.2, 1.0) * *rod.upper_ball_diameter_mm;
        rod.gauge_hole_mm = between(1.0, 4.9);
        const RodEnds ends{{RodEndKind::ball, *rod.lower_ball_diameter_mm, {}},
                           {rod.cup_at_top ? RodEndKind::cup : RodEndKind::ball,
                            *rod.upper_ball_diameter_mm, rod.cup_depth_mm}};
        for (const D definition : {D::between_centres, D::overall, D::effective, D::gauge}) {
            if (definition == D::gauge && rod.cup_at_top) {
                continue;
            }
            const double length = between(100.0, 300.0);
            const auto plain =
                convert_length_mm(length, ends, LengthMeasure{definition, rod.gauge_hole_mm}, {});
            const auto centres = centres_length_mm(length, rod, definition);
            ASSERT_TRUE(plain.ok() && centres.ok());
            EXPECT_NEAR(*centres, *plain, rounding_mm);
        }
    }
}

} // namespace
} // namespace rodway
