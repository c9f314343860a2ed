#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "core/build/records.h"

namespace rodway {

/// One build's plan and parts, as far as they say who waits for which part.
struct PartPlan {
    std::vector<Stage> stages; ///< by ordinal
    std::vector<Step> steps;
    std::vector<Gate> gates;
    std::vector<PartRecord> parts;
};

/// A step or a gate that waits for a part to come.
struct PartUnblocks {
    std::int64_t stage_id = 0;
    std::optional<std::int64_t> step_id; ///< the step that waits; else it is a gate
    std::optional<std::int64_t> gate_id;
    int others = 0; ///< other parts still to come that it waits for: with 0 this one sets it free
};

/// What waits for the part, by the plan's order, steps of a stage before its gates: open steps that
/// are named in the part or that ask for its role, and gates that ask for its role. `today`: ISO
/// day of the shop's calendar. Nothing for a part that is here, or has been replaced.
[[nodiscard]] std::vector<PartUnblocks> unblocked_by(const PartPlan& plan, const PartRecord& part,
                                                     std::string_view today);

} // namespace rodway
