#include "core/dyno/power_correction.h"

#include <cmath>
#include <string>

#include "core/base/assert.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double j607_inHg = 29.92;
constexpr double j607_degF = 60.0;
constexpr double j1349_split = 1.18; // a brake torque's share of friction: 1.18 less 0.18
constexpr double dry_kPa = 99.0;     // of J1349 and ISO 1585
constexpr double din_kPa = 101.3;

/// As the standards write it: 25 degC is 298 K.
double round_K(Temperature air) {
    return air.in_degC() + 273.0;
}

double j607_factor(const WeatherAir& air) {
    const Temperature reference = Temperature::degF(j607_degF);
    return j607_inHg / air.dry.in_inHg() * std::sqrt(air.dry_bulb.in_K() / reference.in_K());
}
double j1349_indicated(const WeatherAir& air) {
    return dry_kPa / air.dry.in_kPa() * std::sqrt(round_K(air.dry_bulb) / 298.0);
}
double iso_1585_factor(const WeatherAir& air) {
    return std::pow(dry_kPa / air.dry.in_kPa(), 1.2) * std::pow(round_K(air.dry_bulb) / 298.0, 0.6);
}
double din_70020_factor(const WeatherAir& air) {
    return din_kPa / air.total.in_kPa() * std::sqrt(round_K(air.dry_bulb) / 293.0);
}

bool beyond(const std::optional<Limits>& limits, double value) {
    return limits && (value < limits->low || value > limits->high);
}

PowerCorrection judged(PowerStandard standard, double factor, const WeatherAir& air) {
    const ValidityLimits limits = validity_limits(standard);
    PowerCorrection correction;
    correction.standard = standard;
    correction.factor = factor;
    correction.factor_outside = beyond(limits.factor, factor);
    correction.temperature_outside = beyond(limits.temperature, air.dry_bulb.in_degC());
    correction.pressure_outside = beyond(limits.pressure, air.dry.in_kPa());
    correction.unusual = factor < usual_factor_low || factor > usual_factor_high;
    return correction;
}

} // namespace

std::string_view standard_name(PowerStandard standard) {
    switch (standard) {
        case PowerStandard::sae_j607:
            return "j607";
        case PowerStandard::sae_j1349:
            return "j1349";
        case PowerStandard::iso_1585:
            return "iso_1585";
        case PowerStandard::din_70020:
            return "din_70020";
        case PowerStandard::iso_1585_compression_ignition:
            return "iso_1585_ci";
    }
    RODWAY_ASSERT(false);
}

ReferenceAir reference_air(PowerStandard standard) {
    switch (standard) {
        case PowerStandard::sae_j607:
            return {Temperature::degF(j607_degF), Pressure::inHg(j607_inHg), true};
        case PowerStandard::din_70020:
            return {Temperature::degC(20.0), Pressure::kPa(din_kPa), false};
        case PowerStandard::sae_j1349:
        case PowerStandard::iso_1585:
        case PowerStandard::iso_1585_compression_ignition:
            return {Temperature::degC(25.0), Pressure::kPa(dry_kPa), true};
    }
    RODWAY_ASSERT(false);
}

ValidityLimits validity_limits(PowerStandard standard) {
    switch (standard) {
        case PowerStandard::sae_j1349:
            return {std::nullopt, Limits{15.0, 35.0, "degC"}, Limits{90.0, 105.0, "kPa"}};
        case PowerStandard::iso_1585:
            return {Limits{0.93, 1.07, {}}, Limits{15.0, 35.0, "degC"}, Limits{80.0, 110.0, "kPa"}};
        case PowerStandard::iso_1585_compression_ignition:
            return {Limits{0.90, 1.10, {}}, Limits{10.0, 40.0, "degC"}, Limits{80.0, 110.0, "kPa"}};
        case PowerStandard::sae_j607:
        case PowerStandard::din_70020:
            return {};
    }
    RODWAY_ASSERT(false);
}

Result<PowerCorrection> power_correction(PowerStandard standard, const WeatherAir& air) {
    switch (standard) {
        case PowerStandard::sae_j607:
            return judged(standard, j607_factor(air), air);
        case PowerStandard::sae_j1349:
            return judged(standard, j1349_split * j1349_indicated(air) - (j1349_split - 1.0), air);
        case PowerStandard::iso_1585:
            return judged(standard, iso_1585_factor(air), air);
        case PowerStandard::din_70020:
            return judged(standard, din_70020_factor(air), air);
        case PowerStandard::iso_1585_compression_ignition:
            break;
    }
    return Error{ErrorCode::not_of_this_kind,
                 "standard",
                 std::string(standard_name(standard)),
                 "fuel",
                 {},
                 {}};
}

Result<PowerCorrection> compression_ignition_correction(const WeatherAir& air,
                                                        double fuel_mg_per_litre_cycle) {
    if (const auto bad =
            outside("fuel", fuel_mg_per_litre_cycle, {40.0, 65.0, "mg/(litre cycle)"})) {
        return *bad;
    }
    const double atmosphere =
        dry_kPa / air.dry.in_kPa() * std::pow(round_K(air.dry_bulb) / 298.0, 0.7);
    const double engine = 0.036 * fuel_mg_per_litre_cycle - 1.14;
    return judged(PowerStandard::iso_1585_compression_ignition, std::pow(atmosphere, engine), air);
}

std::optional<double> indicated_factor(PowerStandard standard, const WeatherAir& air) {
    if (standard == PowerStandard::sae_j607) {
        return j607_factor(air);
    }
    if (standard == PowerStandard::sae_j1349) {
        return j1349_indicated(air);
    }
    return std::nullopt;
}

} // namespace rodway
