#pragma once

#include <optional>

#include "core/clearance/causes.h"

namespace rodway::twins {

/// A minimum after a parameter has grown by `delta` (mm or rad), everything worked out anew: the
/// engine changed, the train closed and, where the rod is chosen again, its length measured with
/// the adjuster standing where it stood. Empty if it can't be, or if the minimum has gone to
/// another place: between heel, mid-lift and full lift, end, or side.
std::optional<double> resolved_minimum_mm(const Engine& engine, const ValvePosition& valve,
                                          const EngineParameter& parameter, double delta,
                                          Held held);

/// d(minimum)/d(parameter) by central differences of the above, five points, error as the step's
/// fourth power. Empty where one of the points is.
std::optional<double> slow_rate(const Engine& engine, const ValvePosition& valve,
                                const EngineParameter& parameter, Held held);

/// The same to one side only, by the first difference, whatever place the minimum goes to: error as
/// the step, 1e-5 mm. `side` is +1 or -1.
std::optional<double> slow_side_rate(const Engine& engine, const ValvePosition& valve,
                                     const EngineParameter& parameter, Held held, double side);

/// The least clearance of a turn with neither the closed form nor the certified search: the pose by
/// bisection, the clearance by walking along the rod, the lift by walking and golden section. Only
/// for trains with a screw.
double walked_minimum_mm(const Engine& engine, const Train& train);

} // namespace rodway::twins
