#pragma once

#include <optional>
#include <string_view>

#include "core/base/result.h"
#include "core/dyno/weather_air.h"

namespace rodway {

/// Standards by which full-load power is brought to reference air.
enum class PowerStandard {
    sae_j607,                      ///< 60 degF, 29.92 inHg dry
    sae_j1349,                     ///< 25 degC, 99 kPa dry; spark ignition, unblown
    iso_1585,                      ///< the same air; spark ignition, unblown
    din_70020,                     ///< 20 degC, 101.3 kPa of all the air, its vapour included
    iso_1585_compression_ignition, ///< unblown or blown by the crank: see
                                   ///< `compression_ignition_correction`
};

/// The name that never changes: "j607", "j1349", "iso_1585", "din_70020" (as a dyno sheet has
/// them), "iso_1585_ci".
[[nodiscard]] std::string_view standard_name(PowerStandard standard);

/// The air at which a standard's factor is 1.
struct ReferenceAir {
    Temperature temperature;
    Pressure pressure;
    bool dry = true; ///< the pressure is that of the dry air; false: of all of it
};
[[nodiscard]] ReferenceAir reference_air(PowerStandard standard);

/// Between what a standard says that it holds; empty where it names no limits, or none is known.
struct ValidityLimits {
    std::optional<Limits> factor;
    std::optional<Limits> temperature; ///< degC
    std::optional<Limits> pressure;    ///< kPa, of the dry air
};
/// ISO 1585 (from memory; UN R85 has the same): factor 0.93 to 1.07, 288 to 308 K, 80 to 110 kPa;
/// compression ignition 0.9 to 1.1, 283 to 313 K. SAE J1349 (from memory): 15 to 35 degC, 90 to 105
/// kPa. Of SAE J607 and DIN 70020 none is known here.
[[nodiscard]] ValidityLimits validity_limits(PowerStandard standard);

/// A factor beyond these is suspect whatever the standard (common practice, no source).
constexpr double usual_factor_low = 0.90;
constexpr double usual_factor_high = 1.09;

/// By what a raw power or torque is multiplied, and whether that may be done.
struct PowerCorrection {
    PowerStandard standard = PowerStandard::sae_j1349;
    double factor = 1.0;
    bool factor_outside = false; ///< of the standard's limits; false where it has none
    bool temperature_outside = false;
    bool pressure_outside = false;
    bool unusual = false; ///< beyond what is usual

    [[nodiscard]] bool outside_limits() const {
        return factor_outside || temperature_outside || pressure_outside;
    }
};

/// The factor of a spark-ignition engine. With the dry pressure p and the temperature t:
///   SAE J607    29.92/p·√((t + 459.67)/519.67), inHg and degF
///   SAE J1349   1.18·(99/p·√((t + 273)/298)) - 0.18, kPa and degC (issue of June 1990)
///   ISO 1585    (99/p)^1.2·((t + 273)/298)^0.6 (from memory)
///   DIN 70020   101.3/p·√((t + 273)/293), p of all the air (from memory)
/// J1349's split takes a fixed share of the torque for friction, which the air doesn't change.
/// `tests/reference/dyno_reference_test.cpp` names the pages. Error: not_of_this_kind ("standard",
/// that of compression ignition).
Result<PowerCorrection> power_correction(PowerStandard standard, const WeatherAir& air);

/// The factor of a compression-ignition engine by ISO 1585, unblown or blown by its crank: f_a^f_m
/// with f_a = 99/p·(T/298)^0.7 and f_m = 0.036·q_c - 1.14. `fuel_mg_per_litre_cycle`, q_c:
/// milligrams of fuel for each working cycle and litre of displacement, over the pressure ratio of
/// the blower (1: unblown), 40 to 65; beyond these editions of the standard differ, and it is
/// refused. Source: an engine's workshop manual, the limits from memory. Errors: not_a_number,
/// out_of_range
/// ("fuel").
Result<PowerCorrection> compression_ignition_correction(const WeatherAir& air,
                                                        double fuel_mg_per_litre_cycle);

/// The factor by which the air alone changes what the burning gas does, for use with a friction
/// torque of its own (`core/dyno/friction_torque.h`): of J607 its factor, of J1349 what stands
/// within its split. Nothing for the others, which aren't made so.
[[nodiscard]] std::optional<double> indicated_factor(PowerStandard standard, const WeatherAir& air);

} // namespace rodway
