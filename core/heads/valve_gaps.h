#pragma once

#include <cstddef>
#include <vector>

#include "core/base/result.h"
#include "core/units/angle.h"
#include "core/units/interval.h"

namespace rodway {

/// The gap between two heads of one cylinder, across the cylinder, from rim to rim, and the lifts
/// at which it was measured (0 for both if closed). A head moves sideways as its valve opens by its
/// lean: the angle, radians, between its axis and the plane square to the way in which the gap is
/// measured. Positive where the head comes nearer, within 60 degrees; 0 for a valve parallel to the
/// cylinder.
struct ValvePairGap {
    Interval gap_mm; ///< -5 to 50
    Interval intake_lift_mm = Interval::exactly(0.0);
    Interval exhaust_lift_mm = Interval::exactly(0.0);
    double intake_lean_rad = 0.0;
    double exhaust_lean_rad = 0.0;
};

/// Both valves of one cylinder at one crank angle, net lifts.
struct ValveLifts {
    CrankAngle at;
    Interval intake_mm;
    Interval exhaust_mm;
};

struct ValvePairGapAt {
    CrankAngle at;
    /// Across the cylinder; rims that stand at different heights are further apart than this.
    /// Negative: one head stands over the other, and they meet if their lifts cross.
    Interval gap_mm;
};

struct ValveToValve {
    std::vector<ValvePairGapAt> gaps; ///< in the order given
    std::size_t tightest = 0;         ///< of them, by the least that each may be
};

/// Valve to valve through the overlap: gap = measured - (lift - lift when measured)·sin lean, of
/// both. Exact: a head moves along its axis and doesn't turn.
/// Errors: too_few_rows ("lifts"); out_of_range, not_a_number, order_wrong ("gap", "intake_lift",
/// "exhaust_lift": 0 to 50 mm, `line` the place in the list; "intake_lean", "exhaust_lean").
Result<ValveToValve> valve_to_valve(const ValvePairGap& measured,
                                    const std::vector<ValveLifts>& overlap);

/// One head's gap to the bore's wall, across the cylinder, and the lift at which it was measured.
struct ValveWallGap {
    Interval gap_mm; ///< -5 to 100; negative: over the wall's edge
    Interval lift_mm = Interval::exactly(0.0);
    double lean_rad = 0.0; ///< positive where the head comes nearer to the wall
};

/// The same gap at another lift, mm. Errors: as `valve_to_valve`, of "gap", "lift", "lean".
Result<Interval> valve_to_wall(const ValveWallGap& measured, const Interval& lift_mm);

/// A closed valve's gap to the wall from sizes: half the bore, less how far the middle of the head
/// stands off the bore's axis, less half the head. mm. Errors: out_of_range, not_a_number,
/// order_wrong ("bore", 20 to 500; "off_axis", 0 to 250; "head", 5 to 200).
Result<Interval> valve_to_wall_by_sizes(const Interval& bore_mm, const Interval& off_axis_mm,
                                        const Interval& head_mm);

} // namespace rodway
