#pragma once

#include <map>
#include <optional>

#include "core/engine/valve_position.h"

namespace rodway {

/// What is stated of one valve's rod and of what moves with it; what nobody stated is empty.
struct RunningValve {
    std::optional<double> wall_mm; ///< of its rod
    std::optional<double> modulus_MPa;
    /// Indicator reading at the middle of the turned rod; empty: as `EngineDoubt::rod_runout`.
    std::optional<double> runout_mm;
    std::optional<double> valve_side_t; ///< tonne; see MovingMasses
    std::optional<double> rocker_at_valve_t;
    std::optional<double> rod_t;
};

/// What a set-up states of an engine in motion ("running/…").
struct RunningStated {
    std::optional<double> crank_rpm;
    std::map<ValvePosition, RunningValve> valves; ///< one for every train
};

} // namespace rodway
