#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/bottom_end/size_band.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// One piston and its bore. What wasn't measured is empty.
struct PistonInBore {
    int cylinder = 0;
    std::optional<Interval> piston_mm;     ///< skirt, at the maker's gauge height
    std::optional<double> gauge_height_mm; ///< where the skirt was measured; 0 to 300
    std::optional<Interval> bore_mm;       ///< across the thrust sides, at its narrowest
};

struct PistonWall {
    int cylinder = 0;
    std::optional<Interval> clearance_mm; ///< bore less piston; empty: not measured
    std::optional<SizeStanding> standing;
    /// To take out of the bore so that the clearance is sure to be the least, mm; 0 where it is.
    std::optional<double> hone_mm;
    /// Nobody wrote down where the skirt was measured, or at another height than the others: its
    /// clearance can't be compared.
    bool gauge_height_unsure = false;
};

/// Piston to wall, cylinder by cylinder, in the order given. Errors, `line` counted from 1:
/// not_a_number, out_of_range ("piston", "bore", 10 to 1000 mm; "gauge_height").
Result<std::vector<PistonWall>> piston_walls(const std::vector<PistonInBore>& pistons,
                                             const SizeBand& wanted);

} // namespace rodway
