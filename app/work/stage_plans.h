#pragma once

#include <set>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/build/plan_changes.h"
#include "core/build/records.h"
#include "core/build/stage_plan.h"

namespace rodway {

/// A plan that a build may begin with.
struct KnownPlan {
    std::string word;
    std::string title;
    std::string about;       ///< may be empty
    bool own = false;        ///< the shop keeps it for itself
    bool built_in = false;   ///< the program has one of this word
    std::int64_t own_id = 0; ///< of the shop's record
};

/// The plans that come with the program, each from its file in `resources/stage_plans`. One that
/// can't be read is a bug.
[[nodiscard]] const std::vector<StagePlan>& built_in_plans();

/// The built-in plans and the shop's own, whose word goes before a built-in one. A shop's plan that
/// can't be read any more stands there by its title. Errors: those of reading the file.
Result<std::vector<KnownPlan>> known_plans(ShopFile& shop);

/// The text of a plan: the shop's own of this word, or else the built-in one.
/// Errors: not_a_choice (`field` "plan", `expected` the words there are); those of reading the
/// file.
Result<std::string> plan_text(ShopFile& shop, const std::string& word);

/// The same, read. Errors: also those of `read_stage_plan_file`.
Result<StagePlan> find_plan(ShopFile& shop, const std::string& word);

/// Keeps a plan's file for the shop, in place of the shop's plan of the same word if there is one.
/// Gives the word back. Errors: those of `read_stage_plan_file`, and then nothing is changed; those
/// of `ShopSession::act`.
Result<std::string> keep_plan(ShopSession& session, const std::string& text);

/// Lets the shop's own plan of this word go: a built-in one counts again. Builds that began with it
/// keep their steps. Errors: not_a_choice (`field` "plan") if the shop has none of this word; those
/// of `ShopSession::act`.
Result<Done> let_plan_go(ShopSession& session, const std::string& word);

/// The stages, steps and gates of a build. Errors: those of reading the file.
Result<PlanInBuild> plan_in_build(ShopFile& shop, std::int64_t build_id);

/// How a build differs from the plan that it began with, as the plan is now.
/// Errors: missing_field (`field` "plan") for a build that began without one; as `find_plan`.
Result<std::vector<PlanChange>> changes_of_plan(ShopFile& shop, const Build& build);

/// Takes chosen changes over as one act; see `take_plan_changes`. Gives back the ids of what is
/// gone from the plan and stays in the build. Errors: as `changes_of_plan`; no_such_record (`field`
/// "change") for an id that no change has; those of `ShopSession::act`.
Result<std::vector<std::string>> take_over(ShopSession& session, const Build& build,
                                           const std::set<std::string>& chosen);

/// The edits between two states of a build's plan, new records under ids that are free now.
/// Errors: those of reading the file.
Result<std::vector<Edit>> edits_between(ShopFile& shop, const PlanInBuild& before,
                                        PlanInBuild after);

} // namespace rodway
