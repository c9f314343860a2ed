#pragma once

#include <vector>

#include "core/engine/engine.h"
#include "core/units/crank_arc.h"

namespace rodway::twins {

/// Samples in a cycle: one every 0.1 crank degrees.
constexpr int samples_in_cycle = 7200;
constexpr double sample_deg = 0.1;

/// One valve at every sample of the cycle, by closing its train anew each time.
struct SampledValve {
    ValvePosition position;
    std::vector<double> lobe_lift_mm;
    std::vector<double> valve_lift_mm;
    std::vector<bool> off_heel;
    std::vector<bool> open;
};
/// In the order of `engine.trains`.
std::vector<SampledValve> sample_cycle(const Engine& engine);

/// What a rocker puts on its shaft, by moments about the shaft and with the pose found by
/// bisection. Newton, bank frame K.
Vec3 slow_on_pivot_K(const Train& train, double adjuster_in_mm, double lobe_lift_mm,
                     double spring_N);

/// The size of the smallest set of angles that meets every arc: one angle for each way in which
/// arcs can lie together, and every set of them. Up to 16 arcs.
std::size_t slow_fewest(const std::vector<CrankArc>& arcs);

} // namespace rodway::twins
