#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/engine/engine.h"
#include "core/sheets/sheet_assessment.h"
#include "render/cylinder_plan.h"

namespace rodway {

/// The cylinder plan of one quantity: at each valve or cylinder the box that has everything but
/// that in common with the box in hand, such as "top thrust" of every bore.
struct SheetPlan {
    PlanContent content;
    /// Spots of the plan with their boxes' positions, in the order of entry.
    std::vector<std::pair<ValvePosition, std::string>> spots;

    [[nodiscard]] const std::string* position_at(const ValvePosition& spot) const;
    [[nodiscard]] std::optional<ValvePosition> spot_of(const std::string& position) const;
};

/// Nothing for quantities that aren't read at cylinders or valves, and without an engine.
/// `in_hand`: position of a box of this line; of none, the plan is that of its first box.
[[nodiscard]] std::optional<SheetPlan> sheet_plan(const SheetLine& line, const Engine* engine,
                                                  const std::string& in_hand);

} // namespace rodway
