#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "core/build/hold.h"
#include "core/build/stage_sign_off.h"
#include "core/build/stage_state.h"

namespace rodway {

/// A build with a plan of three stages of two steps each, on 2026-03-10 at noon:
/// 1 "Heads on" (steps 11, 12), 2 "Pushrod clearance" (21, 22), 3 "Final assembly" (31, 32).
inline HoldFacts a_build() {
    HoldFacts facts;
    facts.now_utc = "2026-03-10T12:00:00Z";
    facts.today = "2026-03-10";
    facts.records.build.id = 1;
    const char* titles[] = {"Heads on", "Pushrod clearance", "Final assembly"};
    for (int stage = 1; stage <= 3; ++stage) {
        facts.records.stages.push_back({stage, 1, stage, titles[stage - 1], {}});
        for (int step = 1; step <= 2; ++step) {
            facts.records.steps.push_back({10 * stage + step,
                                           stage,
                                           step,
                                           "Step " + std::to_string(10 * stage + step),
                                           {},
                                           {}});
        }
    }
    return facts;
}

/// Ticks all steps of a stage.
inline void tick_all(HoldFacts& facts, std::int64_t stage) {
    for (Step& step : facts.records.steps) {
        if (step.stage_id == stage) {
            step.ticked_by = "MH";
            step.ticked_at = "2026-03-09T12:00:00Z";
        }
    }
}

inline void add_gate(HoldFacts& facts, std::int64_t id, std::int64_t stage,
                     const std::optional<std::string>& needs) {
    facts.records.gates.push_back({id, stage, 1, "Gate " + std::to_string(id), needs, {}});
}

inline void add_waiver(HoldFacts& facts, std::int64_t id, const std::string& key,
                       const std::optional<std::string>& until = {}) {
    Waiver waiver;
    waiver.id = id;
    waiver.subject = "as said";
    waiver.reason = "the customer knows";
    waiver.waived_by = "JW";
    waiver.waived_at = "2026-03-09T12:00:00Z";
    waiver.until = until;
    waiver.hold = key;
    facts.records.waivers.push_back(waiver);
}

/// Kinds of the holds of a stage, in their order.
inline std::vector<HoldKind> kinds_of_stage(const HoldFacts& facts, std::int64_t stage) {
    std::vector<HoldKind> kinds;
    for (const Hold& hold : holds_of_stage(facts, stage).holds) {
        kinds.push_back(hold.kind);
    }
    return kinds;
}

/// "part/4/to_come", and "(waived)" behind it.
inline std::vector<std::string> keys(const Holds& holds) {
    std::vector<std::string> all;
    for (const Hold& hold : holds.holds) {
        all.push_back(hold.waived ? hold.key + " (waived)" : hold.key);
    }
    return all;
}

} // namespace rodway
