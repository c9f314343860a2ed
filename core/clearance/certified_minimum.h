#pragma once

#include <optional>

#include "core/clearance/rod_clearance.h"

namespace rodway {

/// The least clearance over a whole turn, with proof.
struct CertifiedMinimum {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> status_at_mm; ///< lobe lift at which the trouble was met
    /// The three below are there only if answered.
    std::optional<RodClearance> on_heel;
    std::optional<RodClearance> at_full_lift;
    std::optional<RodClearance> minimum;
    /// No lobe lift in [0, full lift] has less clearance than `minimum - bound_mm`; at most 0.001
    /// mm.
    double bound_mm = 0.0;
    int evaluations = 0; ///< poses worked out
};

/// Finds it by bounding, not by sampling; the derivation stands in certified_minimum.cpp.
[[nodiscard]] CertifiedMinimum certified_minimum(const RodInTube& rod);

/// The rod and tube of one train as the engine stands, or why there is none.
struct TrainInTube {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> adjuster_needed_mm; ///< where the thread is the trouble
    std::optional<RodInTube> rod;
};
/// Error: banks_parallel.
[[nodiscard]] Result<TrainInTube> rod_in_tube(const Engine& engine, const Train& train);

} // namespace rodway
