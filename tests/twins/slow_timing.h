#pragma once

#include <optional>
#include <vector>

#include "core/cam/cam_timing.h"

namespace rodway::twins {

/// Lift of one valve's lobe, or of the valve (gross lift less lash, not below zero), sampled over
/// the engine's whole cycle of 720°, from crank angle 0 on. Nothing is known here of the cylinder's
/// own dead centres.
struct SampledLift {
    double step_deg = 0.0;
    std::vector<double> lift_mm;
};
SampledLift sampled_lift(const Engine& engine, const ValvePosition& valve, LiftOf of,
                         double step_deg);

/// The first and the last sample around the highest that stand at a lift or above it: crank angles
/// of the engine's cycle. Empty where the highest sample doesn't reach it.
struct SampledEvents {
    double opens_deg = 0.0;
    double closes_deg = 0.0;
};
std::optional<SampledEvents> sampled_events(const SampledLift& sampled, double lift_mm);

/// The highest sample.
double sampled_full_lift_mm(const SampledLift& sampled);

} // namespace rodway::twins
