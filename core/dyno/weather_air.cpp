#include "core/dyno/weather_air.h"

#include <cmath>

#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

const Limits station_limits{50.0, 110.0, "kPa"};
const Limits sea_level_limits{90.0, 110.0, "kPa"};
const Limits altitude_limits{-500.0, 5000.0, "m"};
const Limits dry_bulb_limits{-20.0, 60.0, "degC"};
constexpr double lowest_wet_bulb_degC = -40.0; // of any air within the limits
constexpr double frozen_degC = 0.0;

constexpr double dry_air_J_per_kg_K = 287.05287;
constexpr double vapour_J_per_kg_K = 461.523;

/// The wet bulb at which the air's vapour would have a pressure; it rises with the wet bulb.
double wet_bulb_degC(Temperature dry_bulb, Pressure vapour, Pressure station) {
    double low = lowest_wet_bulb_degC;
    double high = dry_bulb.in_degC();
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (low + high) / 2.0;
        const bool too_low =
            vapour_by_wet_bulb(dry_bulb, Temperature::degC(middle), station) < vapour;
        (too_low ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

Error missing(const char* field, const char* expected) {
    return {ErrorCode::missing_field, field, {}, expected, {}, {}};
}

Result<Pressure> total_pressure(const Weather& weather) {
    if (!weather.barometer_kind) {
        return missing("barometer_kind", "station sea_level");
    }
    const bool at_sea_level = *weather.barometer_kind == BarometerKind::sea_level;
    if (const auto bad = outside("barometer", weather.barometer.in_kPa(),
                                 at_sea_level ? sea_level_limits : station_limits)) {
        return *bad;
    }
    if (!at_sea_level) {
        return weather.barometer;
    }
    if (!weather.altitude_m) {
        return missing("altitude", "");
    }
    if (const auto bad = outside("altitude", *weather.altitude_m, altitude_limits)) {
        return *bad;
    }
    return station_pressure(weather.barometer, *weather.altitude_m);
}

Result<Pressure> vapour_pressure(const Weather& weather, Pressure total) {
    if (weather.relative_humidity_percent && weather.wet_bulb) {
        return Error{
            ErrorCode::not_of_this_kind, "wet_bulb", exact_text(weather.wet_bulb->in_degC()),
            "relative_humidity",         {},         {}};
    }
    if (weather.relative_humidity_percent) {
        if (const auto bad = outside("relative_humidity", *weather.relative_humidity_percent,
                                     {0.0, 100.0, "%"})) {
            return *bad;
        }
        return saturation_vapour(weather.dry_bulb) * (*weather.relative_humidity_percent / 100.0);
    }
    if (!weather.wet_bulb) {
        return missing("relative_humidity", "relative_humidity wet_bulb");
    }
    const double driest_degC = wet_bulb_degC(weather.dry_bulb, Pressure(), total);
    if (const auto bad =
            outside("wet_bulb", weather.wet_bulb->in_degC(),
                    {std::max(frozen_degC, driest_degC), weather.dry_bulb.in_degC(), "degC"})) {
        return *bad;
    }
    return vapour_by_wet_bulb(weather.dry_bulb, *weather.wet_bulb, total);
}

} // namespace

Pressure saturation_vapour(Temperature air) {
    const double t = air.in_degC();
    return Pressure::kPa(0.61121 * std::exp((18.678 - t / 234.5) * t / (257.14 + t)));
}

Pressure vapour_by_wet_bulb(Temperature dry_bulb, Temperature wet_bulb, Pressure station) {
    const double wet_degC = wet_bulb.in_degC();
    const double per_degree = 6.53e-4 * (1.0 + 0.000944 * wet_degC);
    return saturation_vapour(wet_bulb) - station * (per_degree * (dry_bulb.in_degC() - wet_degC));
}

Temperature wet_bulb_at(Temperature dry_bulb, double relative_humidity_percent, Pressure station) {
    const Pressure vapour = saturation_vapour(dry_bulb) * (relative_humidity_percent / 100.0);
    return Temperature::degC(wet_bulb_degC(dry_bulb, vapour, station));
}

Pressure station_pressure(Pressure sea_level, double altitude_m) {
    return sea_level * std::pow(1.0 - 0.0065 * altitude_m / 288.15, 5.25588);
}

double air_density_kg_per_m3(Pressure dry, Pressure vapour, Temperature air) {
    constexpr double Pa_per_kPa = 1000.0;
    return Pa_per_kPa * (dry.in_kPa() / dry_air_J_per_kg_K + vapour.in_kPa() / vapour_J_per_kg_K) /
           air.in_K();
}

Result<WeatherAir> weather_air(const Weather& weather) {
    if (const auto bad = outside("dry_bulb", weather.dry_bulb.in_degC(), dry_bulb_limits)) {
        return *bad;
    }
    const auto total = total_pressure(weather);
    if (!total) {
        return total.error();
    }
    const auto vapour = vapour_pressure(weather, *total);
    if (!vapour) {
        return vapour.error();
    }
    WeatherAir air;
    air.dry_bulb = weather.dry_bulb;
    air.total = *total;
    air.vapour = *vapour;
    air.dry = *total - *vapour;
    air.relative_humidity_percent =
        100.0 * vapour->in_kPa() / saturation_vapour(weather.dry_bulb).in_kPa();
    air.density_kg_per_m3 = air_density_kg_per_m3(air.dry, air.vapour, air.dry_bulb);
    return air;
}

} // namespace rodway
