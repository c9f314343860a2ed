#include "core/dyno/weather_air.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;
constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();

Weather station(double kPa, double degC, std::optional<double> humidity) {
    Weather weather;
    weather.barometer = Pressure::kPa(kPa);
    weather.barometer_kind = BarometerKind::station;
    weather.dry_bulb = Temperature::degC(degC);
    weather.relative_humidity_percent = humidity;
    return weather;
}
WeatherAir air_of(const Weather& weather) {
    const auto air = weather_air(weather);
    EXPECT_TRUE(air.ok()) << (air.ok() ? "" : air.error().field);
    return air.ok() ? *air : WeatherAir{};
}

TEST(WeatherAir, VapourIsTakenOffTheStationsPressure) {
    const WeatherAir air = air_of(station(98.0, 30.0, 60.0));
    EXPECT_DOUBLE_EQ(air.total.in_kPa(), 98.0);
    EXPECT_NEAR(air.vapour.in_kPa(), 0.6 * saturation_vapour(Temperature::degC(30.0)).in_kPa(),
                1e-12);
    EXPECT_NEAR(air.dry.in_kPa() + air.vapour.in_kPa(), 98.0, 1e-12);
    EXPECT_NEAR(air.relative_humidity_percent, 60.0, 1e-12);
    // Damp air is lighter than dry.
    EXPECT_LT(air.density_kg_per_m3, air_of(station(98.0, 30.0, 0.0)).density_kg_per_m3);
}

TEST(WeatherAir, AWetBulbAndItsHumidityAreOneAir) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    int above_freezing = 0;
    for (int round = 0; round < 300; ++round) {
        Weather weather =
            station(60.0 + 45.0 * unit(random), 1.0 + 44.0 * unit(random), 100.0 * unit(random));
        const WeatherAir by_humidity = air_of(weather);
        const Temperature wet =
            wet_bulb_at(weather.dry_bulb, *weather.relative_humidity_percent, weather.barometer);
        EXPECT_LE(wet.in_degC(), weather.dry_bulb.in_degC() + 1e-9);
        if (wet.in_degC() < 0.0) {
            continue;
        }
        ++above_freezing;
        const double humidity = *weather.relative_humidity_percent;
        weather.relative_humidity_percent.reset();
        weather.wet_bulb = wet;
        const WeatherAir by_wet_bulb = air_of(weather);
        EXPECT_NEAR(by_wet_bulb.relative_humidity_percent, humidity, 1e-8);
        EXPECT_NEAR(by_wet_bulb.dry.in_kPa(), by_humidity.dry.in_kPa(), 1e-9);
    }
    EXPECT_GT(above_freezing, 200);
    EXPECT_NEAR(wet_bulb_at(Temperature::degC(25.0), 100.0, Pressure::kPa(99.0)).in_degC(), 25.0,
                1e-9);
}

// A second method: the energy balance of saturating air, with the enthalpies that ASHRAE's
// Handbook, Fundamentals, ch. 1 uses (from memory): w = ((2501 - 2.326·t')·w' - 1.006·(t - t'))/
// (2501 + 1.86·t - 4.186·t'), w = 0.621945·e/(p - e). A psychrometer's own constant parts the two
// by less than 1 % of relative humidity; the pressure left out (as at sea level) by more.
double humidity_by_balance(double dry_degC, double wet_degC, double kPa) {
    const auto saturated = [](double degC) {
        return saturation_vapour(Temperature::degC(degC)).in_kPa();
    };
    const double at_wet = 0.621945 * saturated(wet_degC) / (kPa - saturated(wet_degC));
    const double ratio = ((2501.0 - 2.326 * wet_degC) * at_wet - 1.006 * (dry_degC - wet_degC)) /
                         (2501.0 + 1.86 * dry_degC - 4.186 * wet_degC);
    return 100.0 * kPa * ratio / (0.621945 + ratio) / saturated(dry_degC);
}

TEST(WeatherAir, AWetBulbAgreesWithTheBalanceOfHeat) {
    for (const double kPa : {101.325, 85.0, 70.0}) {
        for (const double dry_degC : {10.0, 20.0, 30.0, 40.0}) {
            for (const double wet_share : {0.6, 0.8, 0.95}) {
                const double wet_degC = dry_degC * wet_share;
                const double expected = humidity_by_balance(dry_degC, wet_degC, kPa);
                if (expected < 0.0) {
                    continue;
                }
                Weather weather = station(kPa, dry_degC, {});
                weather.wet_bulb = Temperature::degC(wet_degC);
                EXPECT_NEAR(air_of(weather).relative_humidity_percent, expected, 1.0)
                    << kPa << ' ' << dry_degC << ' ' << wet_degC;
            }
        }
    }
    EXPECT_GT(humidity_by_balance(30.0, 18.0, 70.0) - humidity_by_balance(30.0, 18.0, 101.325),
              4.0);
}

TEST(WeatherAir, ASeaLevelPressureWantsTheAltitudeAndNothingIsAssumed) {
    Weather weather = station(101.325, 15.0, 0.0);
    weather.barometer_kind.reset();
    EXPECT_EQ(weather_air(weather).error().code, ErrorCode::missing_field);
    EXPECT_EQ(weather_air(weather).error().field, "barometer_kind");
    weather.barometer_kind = BarometerKind::sea_level;
    EXPECT_EQ(weather_air(weather).error().field, "altitude");
    weather.altitude_m = 1000.0;
    EXPECT_NEAR(air_of(weather).total.in_kPa(), 89.8746, 5e-4);
    // A station's pressure is what it is, however high it stands.
    weather.barometer_kind = BarometerKind::station;
    EXPECT_DOUBLE_EQ(air_of(weather).total.in_kPa(), 101.325);
    // What only a mountain could have isn't a sea level's.
    weather.barometer_kind = BarometerKind::sea_level;
    weather.barometer = Pressure::kPa(85.0);
    EXPECT_EQ(weather_air(weather).error().field, "barometer");
}

TEST(WeatherAir, BadReadingsAreErrorsThatNameThem) {
    const auto field = [](const Weather& weather) {
        const auto air = weather_air(weather);
        return air.ok() ? std::string("good") : air.error().field;
    };
    EXPECT_EQ(field(station(98.0, 30.0, 60.0)), "good");
    EXPECT_EQ(field(station(29.9, 30.0, 60.0)), "barometer"); // inches of mercury as kPa
    EXPECT_EQ(field(station(980.0, 30.0, 60.0)), "barometer");
    EXPECT_EQ(field(station(98.0, 85.0, 60.0)), "dry_bulb"); // Fahrenheit as Celsius
    EXPECT_EQ(field(station(nan_value, 30.0, 60.0)), "barometer");
    EXPECT_EQ(field(station(98.0, 30.0, 101.0)), "relative_humidity");
    EXPECT_EQ(field(station(98.0, 30.0, nan_value)), "relative_humidity");
    EXPECT_EQ(weather_air(station(98.0, 30.0, {})).error().code, ErrorCode::missing_field);
    Weather both = station(98.0, 30.0, 60.0);
    both.wet_bulb = Temperature::degC(20.0);
    EXPECT_EQ(weather_air(both).error().code, ErrorCode::not_of_this_kind);
    Weather wet = station(98.0, 30.0, {});
    for (const double degC : {30.1, -1.0, 9.0}) { // above the dry one; frozen; drier than dry
        wet.wet_bulb = Temperature::degC(degC);
        EXPECT_EQ(field(wet), "wet_bulb") << degC;
    }
    const auto limits = weather_air(wet).error().limits;
    EXPECT_EQ(limits->high, 30.0);
    EXPECT_NEAR(
        vapour_by_wet_bulb(wet.dry_bulb, Temperature::degC(limits->low), wet.barometer).in_kPa(),
        0.0, 1e-9);
}

} // namespace
} // namespace rodway
