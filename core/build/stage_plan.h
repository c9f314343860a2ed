#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/build/need.h"

namespace rodway {

/// A thing to do, as a plan has it. Every id is one word, and stands once in its plan, among
/// stages, steps and gates alike: what came from a plan is known by it.
struct PlannedStep {
    std::string id;
    std::string title;
    std::optional<std::string> detail = {};
    std::optional<std::string> sheet = {};   ///< kind of sheet that is filled in here
    std::vector<std::string> roles = {};     ///< of the parts it needs, as `part_roles`
    std::optional<std::string> caution = {}; ///< as `cautions`

    bool operator==(const PlannedStep&) const = default;
};

/// What must be true before the work goes on past the stage.
struct PlannedGate {
    std::string id;
    std::string title;
    std::vector<Need> needs = {};

    bool operator==(const PlannedGate&) const = default;
};

struct PlannedStage {
    std::string id;
    std::string title;
    std::optional<std::string> caution = {};
    std::vector<PlannedStep> steps = {};
    std::vector<PlannedGate> gates = {};

    bool operator==(const PlannedStage&) const = default;
};

/// What a build goes through, in its order. A build keeps the word of the plan that it began with.
struct StagePlan {
    std::string word;
    std::string title;
    std::optional<std::string> about = {};
    std::vector<PlannedStage> stages = {};

    bool operator==(const StagePlan&) const = default;
};

/// The word of the plan for a build of which nothing else is said.
inline constexpr std::string_view usual_stage_plan = "complete_build";

/// "complete_build:deck": how a stage, step or gate of a build names where it came from.
[[nodiscard]] std::string plan_item(const StagePlan& plan, std::string_view id);

/// One word: small letters, digits and underlines, a letter first.
[[nodiscard]] bool is_plan_word(std::string_view word);

/// "Deck, checked twice" becomes "deck_checked_twice", or that with a number behind it, so that it
/// is an id which the plan doesn't have.
[[nodiscard]] std::string free_plan_id(const StagePlan& plan, std::string_view title);

} // namespace rodway
