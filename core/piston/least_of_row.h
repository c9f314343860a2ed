#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/angle.h"
#include "core/units/interval.h"

namespace rodway {

/// A valve's clearance to its piston as read at one crank angle, mm.
struct ClearanceAtAngle {
    CrankAngle after_overlap; ///< within 180 degrees of the overlap's top dead centre
    Interval clearance_mm;    ///< 0 to 100
};

/// The least of such a row.
struct LeastOfRow {
    std::size_t lowest = 0; ///< of the readings, in the order given
    /// High end: as much as the lowest reading says there is, at most. Low end: the parabola's
    /// bottom through it and its neighbours, less its doubt; not below 0.
    std::optional<Interval> least_mm;
    std::optional<CrankAngle> after_overlap; ///< of the parabola's bottom
    /// The lowest stands first or last: the true least may lie beyond, and there is no answer.
    bool at_end = false;
};

/// Clearance about its least is near to a parabola; between readings no more than five degrees
/// apart what it leaves out is under .001 in (own estimate). Errors: too_few_rows (three),
/// order_wrong (an angle twice; "clearance"), not_a_number, out_of_range ("angle", "clearance";
/// `line` the reading's place).
Result<LeastOfRow> least_of_row(const std::vector<ClearanceAtAngle>& readings);

} // namespace rodway
