#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/dyno/weather_rounding.h"
#include "core/sheets/kinds/refused_reading.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// The air of one pull, as its readings make it.
struct PullAir {
    Weather weather;
    WeatherSteps steps;
    std::vector<WeatherAir> airs; ///< as `airs_within`: the first is that of the weather as printed
};

/// Works out the air of a pull ("pull 3"), and points out what the weather still needs. Where the
/// barometer belongs is asked, never assumed. Nothing if the weather isn't there, or can't be.
std::optional<PullAir> work_out_air(const SheetFacts& facts, const std::string& pull,
                                    SheetOutcome& outcome);

/// From the least to the greatest as far as the weather's rounding goes; of what rises or falls
/// with each figure of the weather.
[[nodiscard]] Interval over_airs(const PullAir& air,
                                 const std::function<double(const WeatherAir&)>& figure);

/// What the errors of `weather_air` and `which_factor` speak of.
[[nodiscard]] const std::vector<ReadingOfField>& air_readings();

} // namespace rodway
