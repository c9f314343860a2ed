#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "core/build/records.h"

namespace rodway {

/// A step or a gate that waits for a part.
struct Arrival {
    std::int64_t stage_id = 0;
    std::optional<std::int64_t> step_id; ///< one of the two
    std::optional<std::int64_t> gate_id;
    int others = 0; ///< parts it still waits for when this one has come

    /// Whether the part's coming is all that it waits for.
    [[nodiscard]] bool sets_free() const { return others == 0; }
};

/// One build's plan and parts.
struct PlanAndParts {
    std::vector<Stage> stages;
    std::vector<Step> steps;
    std::vector<Gate> gates;
    std::vector<PartRecord> parts;
};

/// What in its build waits for a part to come, in the plan's order: open steps that it belongs to,
/// or that ask for its role, and gates that do. Nothing for a part that is here, or has been
/// replaced.
[[nodiscard]] std::vector<Arrival> what_arrives_for(const PlanAndParts& build,
                                                    const PartRecord& part, std::string_view today);

} // namespace rodway
