#pragma once

#include <vector>

#include "core/barring/valve_arcs.h"

namespace rodway {

/// One stop of the clearance walk.
struct FullLiftStop {
    CrankAngle at;                     ///< in [0, 720)
    double turn_deg = 0.0;             ///< from the stop before, or, at the first, from the start
    std::vector<ValvePosition> valves; ///< at full lift here
};

/// Full lifts closer than this share a stop: a degree wheel is hardly read finer.
constexpr double same_stop_deg = 0.5;

/// Every valve, in the order in which it comes to full lift when the engine is barred over through
/// one cycle from a crank angle, the way it runs. Valves whose full lifts lie within `together_deg`
/// (0 to 10) share a stop, half-way between the first and the last of them. Valves without a train
/// are in the list: a rod there may be felt by hand.
/// Errors: not_an_angle, out_of_range ("together").
Result<std::vector<FullLiftStop>> full_lift_order(const Engine& engine, CrankAngle from,
                                                  double together_deg = same_stop_deg);

} // namespace rodway
