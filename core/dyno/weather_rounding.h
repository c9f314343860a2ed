#pragma once

#include <vector>

#include "core/dyno/weather_air.h"

namespace rodway {

/// One step of the last digit of each figure of the weather, as a sheet prints them; 0: exact.
struct WeatherSteps {
    double barometer_kPa = 0.0;
    double altitude_m = 0.0;
    double dry_bulb_degC = 0.0;
    double relative_humidity_percent = 0.0;
    double wet_bulb_degC = 0.0;
};

/// The air of the weather itself, then those at all corners of what its rounding leaves open. What
/// rises or falls with each figure of the weather by itself, as pressures and factors do, is
/// bounded by them.
/// Errors: as `weather_air` (also where the rounding reaches over a limit of pressure or
/// temperature); not_a_number, out_of_range ("barometer_step", "altitude_step", "dry_bulb_step",
/// "relative_humidity_step", "wet_bulb_step").
Result<std::vector<WeatherAir>> airs_within(const Weather& weather, const WeatherSteps& steps);

} // namespace rodway
