#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/bottom_end/size_table.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// One diameter of a cylinder.
struct BoreReading {
    int cylinder = 0; ///< 1 to 99
    DiameterReading reading;
};

/// One cylinder, as far as it was measured.
struct CylinderBore {
    int cylinder = 0;
    Interval mean_mm;
    Interval least_mm; ///< the narrowest reading: what a piston has to pass
    Interval greatest_mm;
    std::optional<DiameterDifference> taper;        ///< see `taper_of`
    std::optional<DiameterDifference> out_of_round; ///< see `out_of_round_of`
    /// Wider at the upper end than at the lower, mean over the directions that were read at two
    /// heights, mm; negative: narrower.
    std::optional<Interval> wider_above_mm;
    int missing = 0; ///< of the places that any cylinder was read at
};

/// What a road engine's bores are held to, taper and out of round: .0005 in each. Common practice,
/// no source.
constexpr double common_taper_mm = 0.0127;
constexpr double common_out_of_round_mm = 0.0127;

/// All cylinders, by number. A place read twice counts by its last reading.
/// Errors, `line` counted from 1: too_few_rows ("bore": none); not_a_number, out_of_range
/// ("cylinder", "along", "around", "bore": 5 to 1000 mm).
Result<std::vector<CylinderBore>> survey_bores(const std::vector<BoreReading>& readings);

} // namespace rodway
