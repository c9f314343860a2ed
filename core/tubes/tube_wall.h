#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// The metal between a rod's passage and what lies behind it, at its thinnest, and what a relief
/// takes off it. mm; the wall 0 to 50.
struct TubeWallReadings {
    Interval before_mm;                               ///< sonic tester, scan, or from diameters
    Interval relieved_by_mm = Interval::exactly(0.0); ///< depth square to the wall, 0 to 50
    std::optional<Interval> measured_after_mm;        ///< sonic tester again
};

struct TubeWall {
    /// Before less relief and what was measured after, as far as both agree; else what was
    /// measured.
    Interval left_mm;
    /// Before less relief against what was measured after: above zero, more is gone than was meant.
    std::optional<Interval> gone_astray_mm;
    Interval may_be_taken_mm; ///< further, for `least` to be left; not below 0
};

/// Question 8. `least_mm`: what must be left, 0 to 50. Errors: out_of_range, not_a_number,
/// order_wrong ("before", "relieved_by", "after", "least").
Result<TubeWall> tube_wall(const TubeWallReadings& readings, double least_mm);

/// Thinnest wall of a tube from its diameters, outside and bore (3 to 100 mm), and how far their
/// middles stand apart (0 to 10 mm): half the difference less that.
/// Errors: out_of_range, not_a_number, order_wrong ("outside", "bore", "off_centre").
Result<Interval> tube_wall_by_diameters(const Interval& outside_mm, const Interval& bore_mm,
                                        const Interval& off_centre_mm);

} // namespace rodway
