#pragma once

#include <optional>

#include "core/loads/valve_spring.h"
#include "core/units/printed_value.h"

namespace rodway {

/// A spring's rate as its card states it beside the rate that its two printed loads make.
struct RateComparison {
    double from_loads_N_per_mm = 0.0;
    double stated_more_by = 0.0; ///< stated / from loads - 1: 0.02 is two per cent more
};

/// Empty if the numbers make no rate: not finite, the open height not below the closed one, the
/// open load not above the closed one, a stated rate that isn't above zero.
[[nodiscard]] std::optional<RateComparison> compare_rate(double stated_N_per_mm,
                                                         const SpringLoad& closed,
                                                         const SpringLoad& open);

/// The same quantity printed in two columns, metric and inch, say: how far they are apart, and how
/// far rounding alone could put them apart. In the unit of what was compared (mm, N, N/mm).
struct TwinComparison {
    double first_more_by = 0.0; ///< first - second
    double rounding = 0.0;      ///< half a step of each
    bool contradict = false;    ///< further apart than rounding explains
};

/// Both in the same unit: the second column is converted first (1.32 in, to 0.01 in, is
/// {33.528, 0.254} mm). Empty if a number isn't finite or a step is negative.
[[nodiscard]] std::optional<TwinComparison> compare_twins(const PrintedValue& first,
                                                          const PrintedValue& second);

} // namespace rodway
