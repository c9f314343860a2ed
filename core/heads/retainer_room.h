#pragma once

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// What a retainer comes down to: from its underside to seal or guide, whichever it meets first,
/// valve closed; and how far it comes.
struct RetainerReadings {
    Interval closed_mm;           ///< 0 to 100
    Interval gross_valve_lift_mm; ///< lash not taken off: lobe lift by the rocker's ratio, 0 to 50
    Interval lash_mm;             ///< at the valve, 0 to 5; 0 with hydraulic lifters
};

/// What is left at full lift; negative: they touch.
struct RetainerRoom {
    Interval net_valve_lift_mm;
    Interval at_full_lift_mm;
    Interval with_lash_gone_mm; ///< the valve opens by the lash more: the worst case
    /// What must be taken off the guide or seal for `wanted` to be left at full lift, lash as set.
    /// Not below 0.
    Interval to_take_off_mm;
};

/// `wanted_mm`: 0 to 20. Errors: out_of_range, not_a_number, order_wrong ("closed",
/// "gross_valve_lift", "lash", "wanted").
Result<RetainerRoom> retainer_room(const RetainerReadings& readings, double wanted_mm);

/// .050 in or more (common practice, no source).
[[nodiscard]] FigureBand usual_retainer_room_mm();

} // namespace rodway
