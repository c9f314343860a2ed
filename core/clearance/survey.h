#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "core/clearance/certified_minimum.h"
#include "core/clearance/doubt.h"
#include "core/clearance/verdict.h"
#include "core/engine/engine.h"

namespace rodway {

/// One valve's line in a clearance survey.
struct ValveClearance {
    ValvePosition position;
    std::optional<double> adjuster_needed_mm; ///< where the thread is the trouble
    /// The one that decides: of the rod and whatever it comes nearest to over the turn.
    CertifiedMinimum found;
    /// The rod against its port tube, further passages, obstacles, its rocker's body; then the
    /// lifter's body against the obstacles. Empty if the train doesn't close.
    std::vector<CertifiedMinimum> all;
    /// Crank angles of the minimum on the opening and closing flank; both empty on the heel, where
    /// it holds for the whole of the base circle, and without an answer.
    std::optional<CrankAngle> opening;
    std::optional<CrankAngle> closing;
    /// The doubt of the engine at the minimum, worked out from what its set-up states.
    std::optional<ClearanceDoubt> doubt;
    /// ± of the minimum: that doubt's guard band, or, where nothing is stated, what the set-up
    /// assumes; empty if it assumes nothing.
    std::optional<double> doubt_mm;
    std::optional<Verdict> verdict; ///< empty without an answer
};

/// Every valve's certified minimum, in the order of `engine.trains`. A stop asked for meanwhile
/// ends it with the valves done so far. Error: banks_parallel.
[[nodiscard]] Result<std::vector<ValveClearance>> survey(const Engine& engine,
                                                         const std::stop_token& stop = {});

/// Clearance of one valve at a crank angle, mm; empty where there is none.
[[nodiscard]] std::optional<double> clearance_at(const Engine& engine, const RodInTube& rod,
                                                 const ValvePosition& position, CrankAngle crank);

} // namespace rodway
