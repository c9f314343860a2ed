#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/build/hold.h"
#include "core/build/need.h"

namespace rodway {

/// One thing that a gate waits for, and what keeps it from being so.
struct NeedState {
    Need need;
    std::vector<Hold> holds; ///< waived ones remain

    /// Nothing stands in its way that isn't waived.
    [[nodiscard]] bool met() const;
};

/// How one gate stands.
struct GateState {
    std::int64_t gate_id = 0;
    /// In the order written; nothing if what the gate waits for can't be read.
    std::optional<std::vector<NeedState>> needs;
    /// Open items that the gate waits for by name; of one that can't be read, that too.
    std::vector<Hold> others;

    [[nodiscard]] bool met() const;
};

/// The gates of one stage by ordinal, and what holds the stage at none of them.
struct StageGates {
    std::vector<GateState> gates;
    std::vector<Hold> others;
};

/// Unlike in `holds_of_stage`, what two needs wait for stands under each of them. Empty for a stage
/// that isn't there.
[[nodiscard]] StageGates stage_gates(const HoldFacts& facts, std::int64_t stage_id);

} // namespace rodway
