#include "core/dyno/which_factor.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace rodway {
namespace {

Weather weather_of(double degF, double humidity, double inHg) {
    Weather weather;
    weather.barometer = Pressure::inHg(inHg);
    weather.barometer_kind = BarometerKind::station;
    weather.dry_bulb = Temperature::degF(degF);
    weather.relative_humidity_percent = humidity;
    return weather;
}
/// To the degree, the per cent and the hundredth of an inch.
WeatherSteps printed() {
    WeatherSteps steps;
    steps.barometer_kPa = 0.01 * Pressure::kPa_per_inHg;
    steps.dry_bulb_degC = 1.0 / Temperature::degF_per_degC;
    steps.relative_humidity_percent = 1.0;
    return steps;
}
WhichFactor asked(const Weather& weather, const WeatherSteps& steps, const PrintedValue& stated,
                  PowerStandard standard) {
    const auto which = which_factor(weather, steps, stated, standard);
    EXPECT_TRUE(which.ok()) << (which.ok() ? "" : which.error().field);
    return which.ok() ? *which : WhichFactor{};
}
bool among(const std::vector<FactorForm>& forms, FactorForm form) {
    return std::find(forms.begin(), forms.end(), form) != forms.end();
}

constexpr FactorForm impostors[] = {
    FactorForm::j607_wet,           FactorForm::j1349_wet,           FactorForm::iso_1585_wet,
    FactorForm::j1349_on_29_92,     FactorForm::j1349_on_29_38,      FactorForm::j1349_505,
    FactorForm::j1349_505_on_29_92, FactorForm::unsplit_29_92_at_77,
};

// Each form's own figure, to seven digits and in a weather that is exact, is found again, and is no
// standard's.
TEST(WhichFactor, FindsTheFormThatAFactorWasMadeBy) {
    const Weather weather = weather_of(88.0, 62.0, 28.95);
    const WeatherAir air = *weather_air(weather);
    for (const FactorForm form : impostors) {
        const PrintedValue stated{std::round(form_factor(form, air) * 1e7) / 1e7, 1e-7};
        for (const PowerStandard standard : {PowerStandard::sae_j607, PowerStandard::sae_j1349,
                                             PowerStandard::iso_1585, PowerStandard::din_70020}) {
            const WhichFactor which = asked(weather, {}, stated, standard);
            EXPECT_FALSE(which.is_the_standards()) << static_cast<int>(form);
            EXPECT_EQ(which.matching_others(), std::vector<FactorForm>{form});
            EXPECT_NEAR(which.stated_more_by,
                        stated.value - power_correction(standard, air)->factor, 1e-12);
            EXPECT_EQ(which.others.size(), 11u);
        }
    }
}

TEST(WhichFactor, AStandardsFactorUnderAnothersNameIsFound) {
    const Weather weather = weather_of(88.0, 62.0, 28.95);
    const double j607 = power_correction(PowerStandard::sae_j607, *weather_air(weather))->factor;
    const PrintedValue stated{std::round(j607 * 1e4) / 1e4, 1e-4};
    EXPECT_TRUE(asked(weather, {}, stated, PowerStandard::sae_j607).is_the_standards());
    const WhichFactor under_j1349 = asked(weather, {}, stated, PowerStandard::sae_j1349);
    EXPECT_FALSE(under_j1349.is_the_standards());
    EXPECT_TRUE(among(under_j1349.matching_others(), FactorForm::sae_j607));
    EXPECT_FALSE(among(under_j1349.matching_others(), FactorForm::sae_j1349)); // own, not another
}

TEST(WhichFactor, AllowsForWhatTheWeathersDigitsHide) {
    const Weather weather = weather_of(88.0, 62.0, 28.95);
    const double own = power_correction(PowerStandard::sae_j1349, *weather_air(weather))->factor;
    const PrintedValue near{own + 0.001, 1e-4};
    EXPECT_FALSE(asked(weather, {}, near, PowerStandard::sae_j1349).is_the_standards());
    const WhichFactor which = asked(weather, printed(), near, PowerStandard::sae_j1349);
    EXPECT_TRUE(which.is_the_standards());
    EXPECT_NEAR(which.own.factor.value, own, 1e-12);
    EXPECT_LT(which.own.factor.low, own - 0.001);
    EXPECT_GT(which.own.factor.high, own + 0.001);
    // And not for more: half a degree, half a per cent and .005 in make less than 0.3 %.
    EXPECT_FALSE(asked(weather, printed(), {own + 0.003, 1e-4}, PowerStandard::sae_j1349)
                     .is_the_standards());
    EXPECT_FALSE(asked(weather, printed(), {own - 0.003, 1e-4}, PowerStandard::sae_j1349)
                     .is_the_standards());
}

// One figure's rounding at a time: the bounds are the factors of the weather half a step off.
TEST(WhichFactor, EachFiguresRoundingWidensTheBounds) {
    Weather by_wet_bulb = weather_of(88.0, 62.0, 28.95);
    by_wet_bulb.relative_humidity_percent.reset();
    by_wet_bulb.wet_bulb = Temperature::degF(77.0);
    const auto check = [](const Weather& weather, const WeatherSteps& steps, auto&& moved) {
        const auto factor = [&](double half_steps) {
            Weather other = weather;
            moved(other, half_steps);
            return power_correction(PowerStandard::iso_1585, *weather_air(other))->factor;
        };
        const Bounded found = asked(weather, steps, {1.0, 0.0}, PowerStandard::iso_1585).own.factor;
        EXPECT_NEAR(found.low, std::min(factor(-1.0), factor(1.0)), 1e-12);
        EXPECT_NEAR(found.high, std::max(factor(-1.0), factor(1.0)), 1e-12);
        EXPECT_GT(found.high - found.low, 1e-4);
    };
    const Weather weather = weather_of(88.0, 62.0, 28.95);
    check(weather, {0.5, 0.0, 0.0, 0.0, 0.0}, [](Weather& other, double half_steps) {
        other.barometer = other.barometer + Pressure::kPa(0.25 * half_steps);
    });
    check(weather, {0.0, 0.0, 1.0, 0.0, 0.0}, [](Weather& other, double half_steps) {
        other.dry_bulb = Temperature::degC(other.dry_bulb.in_degC() + 0.5 * half_steps);
    });
    check(weather, {0.0, 0.0, 0.0, 5.0, 0.0}, [](Weather& other, double half_steps) {
        other.relative_humidity_percent = 62.0 + 2.5 * half_steps;
    });
    check(by_wet_bulb, {0.0, 0.0, 0.0, 0.0, 1.0}, [](Weather& other, double half_steps) {
        other.wet_bulb = Temperature::degC(25.0 + 0.5 * half_steps);
    });
}

TEST(WhichFactor, TheFactorsOwnDigitsCount) {
    const Weather weather = weather_of(88.0, 62.0, 28.95);
    const double own = power_correction(PowerStandard::sae_j607, *weather_air(weather))->factor;
    EXPECT_TRUE(
        asked(weather, {}, {own + 0.0004, 0.001}, PowerStandard::sae_j607).is_the_standards());
    EXPECT_FALSE(
        asked(weather, {}, {own + 0.0006, 0.001}, PowerStandard::sae_j607).is_the_standards());
    EXPECT_FALSE(
        asked(weather, {}, {own - 0.0006, 0.001}, PowerStandard::sae_j607).is_the_standards());
}

TEST(WhichFactor, WeatherAtItsEndsIsNotRoundedBeyondThem) {
    Weather weather = weather_of(60.0, 100.0, 29.5);
    EXPECT_TRUE(asked(weather, printed(), {1.02, 0.1}, PowerStandard::sae_j607).is_the_standards());
    weather.relative_humidity_percent.reset();
    weather.wet_bulb = weather.dry_bulb; // saturated, and its step would put it above
    WeatherSteps steps = printed();
    steps.wet_bulb_degC = 1.0;
    EXPECT_TRUE(asked(weather, steps, {1.02, 0.1}, PowerStandard::sae_j607).is_the_standards());
    weather.barometer_kind = BarometerKind::sea_level;
    weather.altitude_m = 300.0;
    steps.altitude_m = 100.0;
    const WhichFactor uphill = asked(weather, steps, {1.06, 0.1}, PowerStandard::sae_j607);
    EXPECT_GT(uphill.own.factor.high - uphill.own.factor.low, 0.012); // 100 m are 1.2 %
}

TEST(WhichFactor, BadNumbersAreErrorsThatNameThem) {
    const Weather weather = weather_of(88.0, 62.0, 28.95);
    const auto field = [&](const WeatherSteps& steps, const PrintedValue& stated) {
        return which_factor(weather, steps, stated, PowerStandard::sae_j607).error().field;
    };
    EXPECT_EQ(field({}, {110.05, 0.0}), "factor");
    EXPECT_EQ(field({}, {std::numeric_limits<double>::quiet_NaN(), 0.0}), "factor");
    EXPECT_EQ(field({}, {1.1, -0.1}), "factor_step");
    EXPECT_EQ(field({-1.0, 0.0, 0.0, 0.0, 0.0}, {1.1, 0.0}), "barometer_step");
    EXPECT_EQ(field({0.0, 0.0, 0.0, 60.0, 0.0}, {1.1, 0.0}), "relative_humidity_step");
    Weather unsaid = weather;
    unsaid.barometer_kind.reset();
    EXPECT_EQ(which_factor(unsaid, {}, {1.1, 0.0}, PowerStandard::sae_j607).error().field,
              "barometer_kind");
    EXPECT_EQ(which_factor(weather, {}, {1.1, 0.0}, PowerStandard::iso_1585_compression_ignition)
                  .error()
                  .field,
              "standard");
}

} // namespace
} // namespace rodway
