#pragma once

#include <atomic>
#include <cstdint>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/engine/engine.h"

namespace rodway {

/// How sampled builds of an engine are drawn.
struct SpreadRequest {
    int builds = 1000;      ///< 40 to 100,000
    std::uint64_t seed = 1; ///< the same seed draws the same builds, on every machine
};

/// One valve's least clearance over all sampled builds, mm. A build in which the train doesn't
/// close or doesn't go through counts as tighter than any that does.
struct ValveSpread {
    ValvePosition valve;
    std::optional<double> low_mm;    ///< one build in 40 is tighter; empty: those have no answer
    std::optional<double> middle_mm; ///< half of the builds are tighter
    std::optional<double> high_mm;   ///< one build in 40 has more
    double below_limit = 0.0;        ///< share of the builds under the engine's limit, 0 to 1
    double without_answer = 0.0;     ///< share of the builds in which there is none
};

struct BuildSpread {
    std::vector<ValveSpread> valves; ///< in the order of the engine's trains
    double any_below_limit = 0.0;    ///< share of builds with at least one valve under the limit
    int builds = 0;                  ///< worked out: fewer than asked for where it was stopped
};

/// Builds of the engine that differ as its set-up says its inputs may (`EngineDoubt::inputs`): each
/// input of each train is drawn from a normal distribution of its standard uncertainty, a gasket
/// once for all valves of a build; the lash is set again, and the least clearance of the whole turn
/// found. What a set-up states as an interval (bow, slop, float) isn't drawn: it acts within every
/// build. The method is that of JCGM 101:2008, 7.
/// `done`, if given, counts the builds as they are worked out, for whoever waits. A stop ends it
/// with those done so far. Errors: missing_field ("doubt/inputs") if nothing is stated that could
/// be drawn; out_of_range ("builds"); banks_parallel.
[[nodiscard]] Result<BuildSpread> build_spread(const Engine& engine, const SpreadRequest& request,
                                               const std::stop_token& stop = {},
                                               std::atomic<int>* done = nullptr);

} // namespace rodway
