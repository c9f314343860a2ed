#pragma once

#include <vector>

#include "core/engine/engine.h"

namespace rodway {

/// How one valve stands at a crank angle.
struct ValveStanding {
    ValvePosition position;
    double lobe_lift_mm = 0.0;
    double valve_lift_mm = 0.0; ///< net: lash taken off; 0 where the train doesn't close
    bool on_heel = true;        ///< the lobe lifts by no more than `heel_mm`
    bool open = false;          ///< off the heel, and net valve lift above 0
    bool train_closes = true;
};

/// Lift below which a lobe counts as on its heel: a lift table is not better than that.
constexpr double heel_mm = 0.00127; // 0.00005 in, half a step of a table to 0.0001 in

/// Every valve at one crank angle, in the order of `engine.trains`. Crank angles count the way the
/// engine turns. With hydraulic lifters a valve that stands open closes by itself after a while,
/// as the lifter bleeds down. Empty if the crank angle isn't a finite number.
[[nodiscard]] std::vector<ValveStanding> valves_at(const Engine& engine, CrankAngle crank);

} // namespace rodway
