#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/clearance/rod_clearance.h"
#include "core/clearance/train_surroundings.h"

namespace rodway {

/// The least clearance of one moved part from one thing over a whole turn, with proof.
struct CertifiedMinimum {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> status_at_mm; ///< lobe lift at which the trouble was met
    /// The three below are there only if answered.
    std::optional<RodClearance> on_heel;
    std::optional<RodClearance> at_full_lift;
    std::optional<RodClearance> minimum;
    /// No lobe lift in [0, full lift] has less clearance than `minimum - bound_mm`; at most 0.001
    /// mm, unless the search ran out of looks (200,000) next to a dead point.
    double bound_mm = 0.0;
    int evaluations = 0; ///< poses worked out
    FeatureKind kind = FeatureKind::port_tube;
    std::string feature = {}; ///< what it may touch, by its name in the set-up
    MovedPart part = MovedPart::rod;
};

/// Finds it by bounding, not by sampling; the derivation stands in approach.cpp.
[[nodiscard]] CertifiedMinimum certified_minimum(const RodInTube& rod);

/// One for every pair, in the order of `surroundings.pairs()`.
[[nodiscard]] std::vector<CertifiedMinimum> certified_minima(const TrainSurroundings& surroundings);

/// The one that speaks for all: the first without an answer, else the least. `all` isn't empty.
[[nodiscard]] const CertifiedMinimum& deciding(const std::vector<CertifiedMinimum>& all);

/// The rod and tube of one train as the engine stands, or why there is none.
struct TrainInTube {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> adjuster_needed_mm; ///< where the thread is the trouble
    std::optional<RodInTube> rod;
};
/// Error: banks_parallel.
[[nodiscard]] Result<TrainInTube> rod_in_tube(const Engine& engine, const Train& train);

} // namespace rodway
