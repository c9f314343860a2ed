#include "core/dyno/weather_rounding.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace rodway {
namespace {

Weather made_up_weather() {
    Weather weather;
    weather.barometer = Pressure::kPa(98.0);
    weather.barometer_kind = BarometerKind::station;
    weather.dry_bulb = Temperature::degC(30.0);
    weather.relative_humidity_percent = 60.0;
    return weather;
}

struct Ends {
    double least;
    double greatest;
};
Ends dry_kPa(const Weather& weather, const WeatherSteps& steps) {
    const auto airs = airs_within(weather, steps);
    EXPECT_TRUE(airs.ok());
    const auto [least, greatest] = std::minmax_element(
        airs->begin(), airs->end(),
        [](const WeatherAir& one, const WeatherAir& other) { return one.dry < other.dry; });
    return {least->dry.in_kPa(), greatest->dry.in_kPa()};
}

// By hand from Buck's formula (the pressures of saturation are rows PW-7 of published values): 98
// less .6 of 4.24512572 kPa at 30 C, 3.16853141 at 25, 5.62675206 at 35.
TEST(WeatherRounding, TheDryPressureIsAsFarOpenAsEachFigureLeavesIt) {
    const Weather weather = made_up_weather();
    EXPECT_NEAR((*airs_within(weather, {}))[0].dry.in_kPa(), 98.0 - 0.6 * 4.24512572, 1e-8);
    WeatherSteps steps;
    steps.barometer_kPa = 1.0;
    EXPECT_NEAR(dry_kPa(weather, steps).least, 97.5 - 0.6 * 4.24512572, 1e-8);
    EXPECT_NEAR(dry_kPa(weather, steps).greatest, 98.5 - 0.6 * 4.24512572, 1e-8);
    steps.dry_bulb_degC = 10.0;
    EXPECT_NEAR(dry_kPa(weather, steps).least, 97.5 - 0.6 * 5.62675206, 1e-8);
    EXPECT_NEAR(dry_kPa(weather, steps).greatest, 98.5 - 0.6 * 3.16853141, 1e-8);
    steps.relative_humidity_percent = 10.0;
    EXPECT_NEAR(dry_kPa(weather, steps).least, 97.5 - 0.65 * 5.62675206, 1e-8);
    EXPECT_NEAR(dry_kPa(weather, steps).greatest, 98.5 - 0.55 * 3.16853141, 1e-8);
}

TEST(WeatherRounding, TheFirstAirIsThatOfTheWeatherAsPrinted) {
    WeatherSteps steps;
    steps.barometer_kPa = 1.0;
    steps.dry_bulb_degC = 1.0;
    const auto airs = airs_within(made_up_weather(), steps);
    EXPECT_EQ((*airs)[0].total.in_kPa(), 98.0);
    EXPECT_EQ((*airs)[0].dry_bulb.in_degC(), 30.0);
}

TEST(WeatherRounding, NoMoistureIsRoundedBeyondItsEnds) {
    Weather weather = made_up_weather();
    weather.relative_humidity_percent = 100.0;
    WeatherSteps steps;
    steps.relative_humidity_percent = 10.0;
    EXPECT_NEAR(dry_kPa(weather, steps).least, 98.0 - 4.24512572, 1e-8);
    weather.relative_humidity_percent = 0.0;
    EXPECT_NEAR(dry_kPa(weather, steps).greatest, 98.0, 1e-12);
    weather.relative_humidity_percent.reset();
    weather.wet_bulb = weather.dry_bulb;
    steps.wet_bulb_degC = 1.0;
    EXPECT_NEAR(dry_kPa(weather, steps).least, 98.0 - 4.24512572, 1e-8);
}

TEST(WeatherRounding, BadWeatherAndStepsAreErrorsThatNameThem) {
    const auto field = [](auto&& change) {
        Weather weather = made_up_weather();
        WeatherSteps steps;
        change(weather, steps);
        return airs_within(weather, steps).error().field;
    };
    EXPECT_EQ(field([](Weather& weather, WeatherSteps&) { weather.barometer_kind.reset(); }),
              "barometer_kind");
    EXPECT_EQ(field([](Weather&, WeatherSteps& steps) { steps.barometer_kPa = 11.0; }),
              "barometer_step");
    EXPECT_EQ(field([](Weather&, WeatherSteps& steps) { steps.altitude_m = -1.0; }),
              "altitude_step");
    EXPECT_EQ(field([](Weather&, WeatherSteps& steps) { steps.dry_bulb_degC = 21.0; }),
              "dry_bulb_step");
    EXPECT_EQ(field([](Weather&, WeatherSteps& steps) { steps.wet_bulb_degC = 21.0; }),
              "wet_bulb_step");
    // The rounding itself reaches over a limit: 110 kPa.
    EXPECT_EQ(field([](Weather& weather, WeatherSteps& steps) {
                  weather.barometer = Pressure::kPa(109.8);
                  steps.barometer_kPa = 1.0;
              }),
              "barometer");
}

} // namespace
} // namespace rodway
