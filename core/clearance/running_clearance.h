#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/clearance/rod_clearance.h"
#include "core/clearance/verdict.h"
#include "core/loads/running_stated.h"

namespace rodway {

/// Where a loaded, bowed rod leaves least.
struct RunningPlace {
    RodClearance left; ///< of the bowed rod in the worst direction: `clearance_mm` is what is left
    double bow_mm = 0.0;          ///< there, at that height of the rod
    double load_N = 0.0;          ///< along the rod; 0 where the valve is shut
    std::optional<CrankAngle> at; ///< empty on the heel, where it holds all round the base circle
};

enum class RunningStatus {
    answered,
    not_stated, ///< `missing` says what
    no_train,   ///< it doesn't close, or the rod doesn't go through: `train` says which
    buckles,    ///< the load reaches the rod's critical one
    lifts_off,  ///< at the stated speed the spring can't hold the train together
};

/// One valve's rod while the engine runs. An estimate: the rod's ends are taken as pinned, what
/// bears lifter and rocker as rigid, the spring's own surge and all friction are left out.
struct ValveInMotion {
    ValvePosition valve;
    RunningStatus status = RunningStatus::answered;
    TrainStatus train = TrainStatus::answered;
    std::vector<std::string> missing; ///< paths of the set-up that would have to be stated
    /// The same for inertia; empty if it counts. Without it the load is the spring's alone, as at
    /// low speed.
    std::vector<std::string> missing_for_inertia;
    std::optional<double> critical_N;  ///< the rod's
    std::optional<double> greatest_N;  ///< load along the rod while the valve is open
    std::optional<double> least_N;     ///< the same; below zero: it lifts off
    std::optional<double> bow_rest_mm; ///< half of the indicator's reading
    std::optional<double> bow_most_mm; ///< in the rod's middle, at the greatest load
    std::optional<RunningPlace> open;  ///< least while the valve is open; none if it never opens
    std::optional<RunningPlace> shut;  ///< least while it is shut, the rod bowed as at rest
    std::optional<double> doubt_mm;    ///< ± of the lesser, the bow left out: it counts already
    std::optional<Verdict> verdict;    ///< of the lesser

    /// The lesser of the two; null without an answer.
    [[nodiscard]] const RunningPlace* least() const;
};

/// What clearance every rod has left in motion, in the order of the engine's trains. The bow at
/// rest grows under the load by 1/(1 - F/F_cr) (`bow_under_load_mm`); the load acts while the valve
/// is open. Looked for at 120 angles of the open part and then closer round the least; so it is no
/// certified minimum. A stop ends it with the valves done so far. Error: banks_parallel.
[[nodiscard]] Result<std::vector<ValveInMotion>> running_clearances(
    const Engine& engine, const RunningStated& stated, const std::stop_token& stop = {});

} // namespace rodway
