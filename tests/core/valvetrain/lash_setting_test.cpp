#include "core/valvetrain/lash_setting.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/units/angle.h"
#include "core/units/length.h"

namespace rodway {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

double inches(double value) {
    return Length::inches(value).in_mm();
}

TEST(ThreadPitch, IsReadTheWayThreadsAreCalled) {
    const std::pair<const char*, double> cases[] = {
        {"1.0 mm", 1.0},           {"1,25 mm", 1.25},        {"1 mm", 1.0},
        {"M8x1.0", 1.0},           {"m10 x 1,25", 1.25},     {"5/16-18", 25.4 / 18.0},
        {"3/8-24", 25.4 / 24.0},   {"7/16-20", 25.4 / 20.0}, {"10-32", 25.4 / 32.0},
        {"#10-32", 25.4 / 32.0},   {"18 tpi", 25.4 / 18.0},  {"24TPI", 25.4 / 24.0},
        {".050 in", 0.050 * 25.4},
    };
    for (const auto& [text, mm] : cases) {
        const auto pitch = parse_thread_pitch(text);
        ASSERT_TRUE(pitch.ok()) << text;
        EXPECT_NEAR(*pitch, mm, 1e-12) << text; // rounding
    }
}

TEST(ThreadPitch, IsNeverGuessed) {
    const std::pair<const char*, ErrorCode> cases[] = {
        {"", ErrorCode::empty_text},         {"1.0", ErrorCode::unit_needed},
        {"18", ErrorCode::unit_needed},      {"coarse", ErrorCode::not_a_length},
        {"5/16", ErrorCode::unit_needed},    {"tpi", ErrorCode::not_a_length},
        {"5/16-x", ErrorCode::not_a_length}, {"0 tpi", ErrorCode::out_of_range},
        {"5/16-0", ErrorCode::out_of_range}, {"5/16-400", ErrorCode::out_of_range},
        {"8 mm", ErrorCode::out_of_range},   {"M8x80", ErrorCode::out_of_range},
        {"-1 mm", ErrorCode::out_of_range},  {"1.0-1.25 mm", ErrorCode::not_a_length},
    };
    for (const auto& [text, code] : cases) {
        const auto pitch = parse_thread_pitch(text);
        ASSERT_FALSE(pitch.ok()) << text;
        EXPECT_EQ(static_cast<int>(pitch.error().code), static_cast<int>(code)) << text;
    }
}

TEST(ScrewTurn, TravelAndTurnAreEachOthersInverse) {
    EXPECT_EQ(*thread_travel_mm(1.25, 360.0), 1.25);
    EXPECT_EQ(*thread_travel_mm(1.25, -90.0), -0.3125);
    for (const double travel : {-3.0, -0.01, 0.0, 0.2, 7.0}) {
        const auto turn = turn_for_travel(1.0583, travel);
        ASSERT_TRUE(turn.ok());
        EXPECT_NEAR(*thread_travel_mm(1.0583, turn->deg), travel, 1e-12); // rounding
        EXPECT_NEAR(turn->turns * 360.0, turn->deg, 1e-9);
    }
    EXPECT_FALSE(turn_for_travel(0.0, 1.0).ok());
    EXPECT_FALSE(turn_for_travel(nan, 1.0).ok());
    EXPECT_FALSE(turn_for_travel(1.0, infinity).ok());
    EXPECT_FALSE(thread_travel_mm(1.0, nan).ok());
}

/// A rocker in its plane, tip held at its height by the valve: how far the ball goes down for a
/// pivot that goes down by `nut_mm`. Arms lie `sag_deg` below level, either side of the pivot.
/// The rocker's angle is found by bisection.
double seat_travel_mm(double ball_arm_mm, double tip_arm_mm, double sag_deg, double nut_mm) {
    const double sag = radians(sag_deg);
    double low = 0.0;
    double high = 0.5;
    for (int halving = 0; halving < 100; ++halving) {
        const double turned = (low + high) / 2.0;
        const double tip_rise = tip_arm_mm * (std::sin(turned - sag) - std::sin(-sag));
        (tip_rise < nut_mm ? low : high) = turned;
    }
    return nut_mm + ball_arm_mm * (std::sin(sag + low) - std::sin(sag));
}

TEST(NutLeverRuleOfThumb, IsExactForAStraightLeverAndOnlyNearForABentOne) {
    for (const double ratio : {1.2, 1.5, 1.75}) {
        const auto rule = nut_lever_rule_of_thumb(ratio);
        ASSERT_TRUE(rule.ok());
        const double straight = seat_travel_mm(22.0, 22.0 * ratio, 0.0, 1.0);
        EXPECT_NEAR(straight, *rule, 1e-9); // closed form: similar triangles
        const double bent = seat_travel_mm(22.0, 22.0 * ratio, 20.0, 1.0);
        EXPECT_GT(std::abs(bent - *rule), 0.002);
        EXPECT_NEAR(bent, *rule, 0.05);
    }
    for (const double ratio : {0.0, -1.5, nan, infinity, 10.0}) {
        EXPECT_FALSE(nut_lever_rule_of_thumb(ratio).ok()) << ratio;
    }
}

// 3/4 turn at 24 threads per inch and ratio 1.5: .75/24·(1 + 1/1.5) = .052083 in (arithmetic).
TEST(Preload, ThreeQuartersOfATurn) {
    const auto preload = preload_rule_of_thumb_mm(*parse_thread_pitch("3/8-24"), 0.75, 1.5);
    ASSERT_TRUE(preload.ok());
    EXPECT_NEAR(Length::mm(*preload).in_inches(), 0.0520833, 5e-8);
    EXPECT_FALSE(preload_rule_of_thumb_mm(1.0, nan, 1.5).ok());
    EXPECT_FALSE(preload_rule_of_thumb_mm(1.0, 0.75, 0.0).ok());
    EXPECT_FALSE(preload_rule_of_thumb_mm(0.0, 0.75, 1.5).ok());
}

TEST(ColdLash, TheEnginesOwnOffsetGoesBeforeThePublishedOne) {
    const auto published = cold_lash(inches(0.022), {}, EngineMetals::iron_block_aluminium_heads);
    ASSERT_TRUE(published.ok());
    EXPECT_EQ(published->source, LashOffsetSource::published);
    EXPECT_NEAR(Length::mm(*published->cold_mm).in_inches(), 0.016, 1e-9);
    const auto own =
        cold_lash(inches(0.022), inches(-0.0045), EngineMetals::iron_block_aluminium_heads);
    ASSERT_TRUE(own.ok());
    EXPECT_EQ(own->source, LashOffsetSource::own_measured);
    EXPECT_NEAR(Length::mm(*own->cold_mm).in_inches(), 0.0175, 1e-9);
    EXPECT_NEAR(own->cold_less_hot_mm, inches(-0.0045), 1e-12);
    // Measured as no change at all is a measurement too.
    EXPECT_EQ(cold_lash(0.5, 0.0, EngineMetals::aluminium)->cold_mm, 0.5);
    EXPECT_EQ(cold_lash(0.5, 0.0, {})->source, LashOffsetSource::own_measured);
    // Iron is set wider cold, aluminium tighter.
    EXPECT_GT(published_cold_less_hot_mm(EngineMetals::iron), 0.0);
    EXPECT_LT(published_cold_less_hot_mm(EngineMetals::aluminium),
              published_cold_less_hot_mm(EngineMetals::iron_block_aluminium_heads));
}

TEST(ColdLash, WhereNoGapIsLeftThereIsNothingToSet) {
    const auto lash = cold_lash(inches(0.008), {}, EngineMetals::aluminium); // -.012
    ASSERT_TRUE(lash.ok());
    EXPECT_FALSE(lash->cold_mm.has_value());
    EXPECT_NEAR(lash->cold_less_hot_mm, inches(-0.012), 1e-12);
}

TEST(ColdLash, RefusesWhatItCannotUse) {
    EXPECT_EQ(cold_lash(0.5, {}, {}).error().code, ErrorCode::missing_field);
    for (const double hot : {nan, infinity, -0.1, 6.0}) {
        EXPECT_EQ(cold_lash(hot, 0.0, {}).error().field, "hot_lash");
    }
    EXPECT_EQ(cold_lash(0.5, nan, EngineMetals::iron).error().field, "own_offset");
    EXPECT_EQ(cold_lash(0.5, 3.0, {}).error().field, "own_offset");
    EXPECT_FALSE(measured_cold_less_hot_mm(nan, 0.5).ok());
    EXPECT_FALSE(measured_cold_less_hot_mm(0.5, -0.5).ok());
}

TEST(DryClearance, TheRodChangesThatFitPutItJustWithinItsLimits) {
    const double ratio = 1.28;
    const auto change = rod_change_for_dry_clearance(2.5, 0.7, 2.0, ratio);
    ASSERT_TRUE(change.ok());
    EXPECT_NEAR(*dry_clearance_with_rod_mm(2.5, change->from_mm, ratio), 2.0, 1e-12); // rounding
    EXPECT_NEAR(*dry_clearance_with_rod_mm(2.5, change->to_mm, ratio), 0.7, 1e-12);
    EXPECT_GT(change->from_mm, 0.0); // too wide: a longer rod
    EXPECT_FALSE(rod_change_for_dry_clearance(2.5, 2.0, 0.7, ratio).ok());
    EXPECT_FALSE(rod_change_for_dry_clearance(nan, 0.7, 2.0, ratio).ok());
    EXPECT_FALSE(rod_change_for_dry_clearance(2.5, nan, 2.0, ratio).ok());
    EXPECT_FALSE(dry_clearance_with_rod_mm(2.5, infinity, ratio).ok());
    EXPECT_FALSE(dry_clearance_with_rod_mm(2.5, 0.5, nan).ok());
    EXPECT_LT(*dry_clearance_with_rod_mm(0.5, 1.0, ratio), 0.0); // held open
}

} // namespace
} // namespace rodway
