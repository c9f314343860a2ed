#pragma once

#include <optional>
#include <vector>

#include "core/barring/heel_arcs.h"

namespace rodway {

/// One stop at which several valves' lash is set.
struct LashStop {
    CrankAngle at;                      ///< in [0, 720)
    double turn_deg = 0.0;              ///< from the stop before, or, at the first, from the start
    std::vector<ValvePosition> set;     ///< to set here: every valve stands at one stop
    std::vector<ValvePosition> may_set; ///< all that may be set here, `set` among them
    CrankArc may_stand;                 ///< anywhere in it, all of `set` may be set
    std::optional<int> firing_tdc_of;   ///< the stop is this cylinder's firing top dead centre
};

struct LashStops {
    std::vector<LashStop> stops;       ///< in the order in which they come from the start
    std::vector<LashLeftOut> left_out; ///< lobe_estimated, heel_too_short
};

/// The fewest crank angles at which every valve's lash can be set, each valve on its heel with the
/// margin; no smaller number will do (see `fewest_angles`).
///
/// Where they stand: if as few firing top dead centres will do, those, since a pulley or flywheel
/// shows them; of several such sets, one that keeps the valves farthest from the ends of their
/// heels, then one with cylinder 1's. Otherwise each stop stands at a firing top dead centre if one
/// lies where the valves set there allow, or else in the middle of that stretch. A valve that could
/// be set at several stops is set where it is farthest from the ends of its heel.
/// With hydraulic lifters the same stops serve to set preload.
/// Errors: not_an_angle ("crank"), out_of_range ("heel_margin").
Result<LashStops> fewest_lash_stops(const Engine& engine, CrankAngle from,
                                    double margin_deg = usual_heel_margin_deg);

} // namespace rodway
