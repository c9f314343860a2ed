#include "core/dyno/pull_comparison.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

WeatherAir air_at(double kPa, double degC, double humidity) {
    Weather weather;
    weather.barometer = Pressure::kPa(kPa);
    weather.barometer_kind = BarometerKind::station;
    weather.dry_bulb = Temperature::degC(degC);
    weather.relative_humidity_percent = humidity;
    return *weather_air(weather);
}

/// Torque straight from 500 N m at 3000 down to 400 at 6000, `times` as large, in steps.
PullInAir line(double from_rpm, double to_rpm, double step_rpm, double times,
               const WeatherAir& air) {
    PullInAir made;
    made.air = air;
    for (double rpm = from_rpm; rpm <= to_rpm; rpm += step_rpm) {
        made.pull.rows.push_back({rpm, Torque::Nm(times * (600.0 - rpm / 30.0))});
    }
    return made;
}

// One engine on two days: what the first day's air took is put back, so nothing is gained.
TEST(PullComparison, TheSameEngineOnTwoDaysGainsNothing) {
    const WeatherAir cool = air_at(101.0, 15.0, 30.0);
    const WeatherAir hot = air_at(97.0, 33.0, 70.0);
    for (const PowerStandard standard : {PowerStandard::sae_j607, PowerStandard::sae_j1349,
                                         PowerStandard::iso_1585, PowerStandard::din_70020}) {
        const double cool_factor = power_correction(standard, cool)->factor;
        const double hot_factor = power_correction(standard, hot)->factor;
        const auto found =
            compare_pulls(line(3000.0, 6000.0, 500.0, 1.0 / cool_factor, cool),
                          line(3000.0, 6000.0, 500.0, 1.0 / hot_factor, hot), standard);
        ASSERT_TRUE(found.ok());
        EXPECT_EQ(found->first_by.standard, standard);
        EXPECT_NEAR(found->torque_gained.in_Nm(), 0.0, 1e-9);
        EXPECT_NEAR(found->power_gained.in_kW(), 0.0, 1e-9);
        EXPECT_EQ(found->points.size(), 7u);                // each common speed once
        EXPECT_LT(found->raw_torque_gained.in_Nm(), -10.0); // the hot day's read less
        for (const ComparedPoint& point : found->points) {
            EXPECT_NEAR(point.first_corrected.in_Nm(), 600.0 - point.speed_rpm / 30.0, 1e-9);
            EXPECT_NEAR(point.second_corrected.in_Nm(), 600.0 - point.speed_rpm / 30.0, 1e-9);
            EXPECT_NEAR(point.second_raw.in_Nm() * hot_factor, point.second_corrected.in_Nm(),
                        1e-9);
        }
    }
}

TEST(PullComparison, OnlyTheCommonBandCounts) {
    const WeatherAir air = air_at(99.0, 25.0, 0.0);
    const auto found =
        compare_pulls(line(2000.0, 5000.0, 250.0, 1.0, air), line(3100.0, 6100.0, 500.0, 1.1, air),
                      PowerStandard::sae_j1349);
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->band.low_rpm, 3100.0);
    EXPECT_EQ(found->band.high_rpm, 5000.0);
    // Ends, 3250 to 4750 of the one (7), 3600, 4100 and 4600 of the other.
    EXPECT_EQ(found->points.size(), 12u);
    EXPECT_EQ(found->first.raw.rows, 8u);
    EXPECT_EQ(found->second.raw.rows, 4u);
    // Straight lines: the mean is the middle, 600 - 4050/30.
    EXPECT_NEAR(found->first.corrected.torque_by_area.in_Nm(), 465.0, 1e-9);
    EXPECT_NEAR(found->torque_gained.in_Nm(), 46.5, 1e-9);
    EXPECT_NEAR(found->second.corrected.torque_of_rows->in_Nm(),
                1.1 * (600.0 - (3100.0 + 3600.0 + 4100.0 + 4600.0) / 4.0 / 30.0), 1e-9);
    EXPECT_FALSE(found->air_turned_it);
}

// Made-up: one pull reads more, the other is the better.
TEST(PullComparison, SaysWhereTheAirTurnsTheAnswer) {
    const auto found = compare_pulls(line(3000.0, 6000.0, 500.0, 1.00, air_at(101.5, 12.0, 20.0)),
                                     line(3000.0, 6000.0, 500.0, 0.97, air_at(96.0, 33.0, 60.0)),
                                     PowerStandard::sae_j607);
    EXPECT_LT(found->raw_power_gained.in_kW(), 0.0);
    EXPECT_GT(found->power_gained.in_kW(), 0.0);
    EXPECT_TRUE(found->air_turned_it);
}

TEST(PullComparison, PullsThatCannotBeComparedAreErrors) {
    const WeatherAir air = air_at(99.0, 25.0, 0.0);
    const PullInAir low = line(2000.0, 3000.0, 250.0, 1.0, air);
    const auto apart =
        compare_pulls(low, line(3000.0, 6000.0, 500.0, 1.0, air), PowerStandard::sae_j607);
    EXPECT_EQ(apart.error().field, "band");
    EXPECT_EQ(apart.error().limits->high, 3000.0);
    EXPECT_EQ(compare_pulls(low, {}, PowerStandard::sae_j607).error().field, "second/rows");
    PullInAir swapped = low;
    std::swap(swapped.pull.rows[0], swapped.pull.rows[1]);
    EXPECT_EQ(compare_pulls(swapped, low, PowerStandard::sae_j607).error().field, "first/speed");
    EXPECT_EQ(compare_pulls(low, low, PowerStandard::iso_1585_compression_ignition).error().field,
              "standard");
}

} // namespace
} // namespace rodway
