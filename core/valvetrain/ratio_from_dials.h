#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// Two dials read together: one on the lifter, along its axis, one on the valve's retainer, along
/// the valve's.
struct DialPair {
    Interval lifter_mm = Interval::exactly(0.0);
    Interval valve_mm = Interval::exactly(0.0);
};

struct DialReadings {
    std::vector<DialPair> pairs; ///< lifter rising
    DialPair on_heel;            ///< what the dials showed with the lifter on the heel: zero error
    std::optional<Interval> lash_mm; ///< at the valve; 0 if there is none; empty if nobody looked
};

/// A rocker's ratio where one pair was read, its dials' zero errors taken off.
struct DialRatio {
    Interval lifter_lift_mm;
    Interval valve_lift_mm; ///< net: as the valve moved
    /// Valve lift and lash together, over lifter lift: the ratio from the heel up to here. Empty
    /// without a lash, and where the valve may not have moved yet.
    std::optional<Interval> overall;
    /// Net valve lift over lifter lift: what lash and ratio leave of the lobe.
    std::optional<Interval> net;
    /// What the valve gained on the pair before over what the lifter did: zero error and lash drop
    /// out. Empty unless the valve moved at both.
    std::optional<Interval> step;
};

/// A ratio is empty, too, where the lifter's own gain may be nothing.
/// Errors: too_few_rows ("pairs"), order_wrong ("lifter": it must rise from pair to pair, by the
/// middles), out_of_range and not_a_number ("lifter", -5 to 30; "valve", -5 to 50; "on_heel/…",
/// within 5; "lash", 0 to 5 mm; `line` the pair's place).
Result<std::vector<DialRatio>> ratio_from_dials(const DialReadings& readings);

} // namespace rodway
