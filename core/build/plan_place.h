#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "core/build/edit.h"
#include "core/build/stage_plan.h"

namespace rodway {

/// Where one stage, step or gate stands in a plan. What is asked of a plan at a place that it
/// doesn't have is a bug.
struct PlanPlace {
    RecordKind kind = RecordKind::stage; ///< stage, step or gate
    std::size_t stage = 0;
    std::size_t at = 0; ///< among the stage's steps or gates

    bool operator==(const PlanPlace&) const = default;
};

/// Nothing if the plan has no such id.
[[nodiscard]] std::optional<PlanPlace> place_in(const StagePlan& plan, const std::string& id);

[[nodiscard]] const std::string& id_at(const StagePlan& plan, const PlanPlace& place);
[[nodiscard]] std::string& title_at(StagePlan& plan, const PlanPlace& place);
[[nodiscard]] const std::string& title_at(const StagePlan& plan, const PlanPlace& place);

// What is put in gets a free id, which is given back.

/// A stage behind that of the place; first of all without one.
std::string put_stage_behind(StagePlan& plan, const std::optional<PlanPlace>& place,
                             const std::string& title);
/// A step behind that of the place, or behind the last of its stage if it is no step.
std::string put_step_behind(StagePlan& plan, const PlanPlace& place, const std::string& title);
/// A gate behind the last of the stage; it waits for the stage's steps.
std::string put_gate(StagePlan& plan, const PlanPlace& place, const std::string& title);

/// One place towards the front (-1) or the end (1) of its own kind in its stage; not beyond.
void move_in_plan(StagePlan& plan, const PlanPlace& place, int by);
/// A stage goes with all that is in it.
void take_out_of_plan(StagePlan& plan, const PlanPlace& place);

} // namespace rodway
