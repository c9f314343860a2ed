#include "core/dyno/weather_rounding.h"

#include <algorithm>
#include <utility>

#include "core/units/within.h"

namespace rodway {
namespace {

std::optional<Error> wrong_steps(const WeatherSteps& steps) {
    const std::pair<const char*, std::pair<double, Limits>> fields[] = {
        {"barometer_step", {steps.barometer_kPa, {0.0, 10.0, "kPa"}}},
        {"altitude_step", {steps.altitude_m, {0.0, 500.0, "m"}}},
        {"dry_bulb_step", {steps.dry_bulb_degC, {0.0, 20.0, "degC"}}},
        {"relative_humidity_step", {steps.relative_humidity_percent, {0.0, 50.0, "%"}}},
        {"wet_bulb_step", {steps.wet_bulb_degC, {0.0, 20.0, "degC"}}},
    };
    for (const auto& [field, number] : fields) {
        if (auto bad = outside(field, number.first, number.second)) {
            return bad;
        }
    }
    return std::nullopt;
}

/// The weather with each figure half a step up or down, by the bits of `corner`.
Weather moved(Weather weather, const WeatherSteps& steps, unsigned corner) {
    const auto half = [corner](unsigned bit, double step) {
        return (corner >> bit & 1U) != 0U ? step / 2.0 : -step / 2.0;
    };
    weather.barometer = weather.barometer + Pressure::kPa(half(0, steps.barometer_kPa));
    const double dry_degC = weather.dry_bulb.in_degC() + half(1, steps.dry_bulb_degC);
    weather.dry_bulb = Temperature::degC(dry_degC);
    // A hundred per cent is no more than that however it was rounded.
    if (weather.relative_humidity_percent) {
        weather.relative_humidity_percent = std::clamp(
            *weather.relative_humidity_percent + half(2, steps.relative_humidity_percent), 0.0,
            100.0);
    }
    if (weather.wet_bulb) {
        const double wet_degC = weather.wet_bulb->in_degC() + half(2, steps.wet_bulb_degC);
        weather.wet_bulb = Temperature::degC(std::min(std::max(wet_degC, 0.0), dry_degC));
    }
    if (weather.altitude_m) {
        weather.altitude_m = *weather.altitude_m + half(3, steps.altitude_m);
    }
    return weather;
}

} // namespace

Result<std::vector<WeatherAir>> airs_within(const Weather& weather, const WeatherSteps& steps) {
    if (const auto bad = wrong_steps(steps)) {
        return *bad;
    }
    const auto as_printed = weather_air(weather);
    if (!as_printed) {
        return as_printed.error();
    }
    std::vector<WeatherAir> airs{*as_printed};
    for (unsigned corner = 0; corner < 16; ++corner) {
        const auto air = weather_air(moved(weather, steps, corner));
        if (!air) {
            return air.error();
        }
        airs.push_back(*air);
    }
    return airs;
}

} // namespace rodway
