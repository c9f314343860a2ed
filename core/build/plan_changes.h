#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/build/edit.h"
#include "core/build/plan.h"
#include "core/build/stage_plan.h"

namespace rodway {

/// The stages, steps and gates of one build, in any order; what came from no plan stands among
/// them.
struct PlanInBuild {
    std::int64_t build_id = 0;
    std::vector<Stage> stages;
    std::vector<Step> steps;
    std::vector<Gate> gates;
};

enum class PlanChangeKind {
    added,   ///< the plan has it, the build doesn't
    changed, ///< the build has it otherwise
    gone,    ///< the build has it from this plan, the plan has it no more
};

/// One field in which a build and its plan differ.
struct PlanFieldChange {
    /// As the record's; "after" where it stands behind another of its stage than in the plan.
    std::string field;
    std::optional<std::string> before; ///< of "after": title of what it stands behind
    std::optional<std::string> now;

    bool operator==(const PlanFieldChange&) const = default;
};

/// One stage, step or gate in which a build differs from its plan as the plan is now.
struct PlanChange {
    PlanChangeKind kind = PlanChangeKind::added;
    RecordKind item = RecordKind::step; ///< stage, step or gate
    std::string id;                     ///< in the plan
    std::string stage;                  ///< id of its stage; its own for a stage
    std::string title;                  ///< as the plan has it; of what is gone, as the build has
    std::int64_t record_id = 0;         ///< in the build; 0 for what is added
    std::vector<PlanFieldChange> fields = {};
    std::string stage_title = {}; ///< as `title`, of its stage
};

/// What differs, in the order of the plan, what is gone behind it. Known by `plan_item`, within its
/// stage: what moved to another stage is gone from the one and added to the other. A step that was
/// ticked, or isn't needed in this build, isn't told as gone, nor is a stage that has such a step
/// or one of the build's own.
[[nodiscard]] std::vector<PlanChange> plan_changes(const PlanInBuild& build, const StagePlan& plan);

/// A build's plan after changes were taken over.
struct TakenPlan {
    /// What is new has an id below 0, by which its steps and gates name their stage.
    PlanInBuild after;
    /// Ids of gates and stages that are gone from the plan but stay: something else refers to them.
    std::vector<std::string> kept;
};

/// Takes over the changes whose id is among `chosen`. What is added comes in behind what it stands
/// behind in the plan; a step or gate brings its stage, a stage all its steps and gates. What is
/// gone is taken out; a step to which something in `referred` points stays, and is from then on not
/// needed, for the reason `not_needed`.
/// `referred`: stages, steps and gates that other records name.
[[nodiscard]] TakenPlan take_plan_changes(const PlanInBuild& build, const StagePlan& plan,
                                          const std::set<std::string>& chosen,
                                          const std::set<RecordRef, ByKindAndId>& referred,
                                          const std::string& not_needed);

/// All of a plan, for a build that has nothing yet.
[[nodiscard]] PlanInBuild plan_for_new_build(const StagePlan& plan, std::int64_t build_id);

} // namespace rodway
