#include "core/build/arrival.h"

#include <algorithm>
#include <string>

#include "core/build/hold_finder.h"
#include "core/build/need.h"
#include "core/build/part_role.h"
#include "core/build/part_wait.h"

namespace rodway {
namespace {

using Roles = std::vector<std::string>;

Roles roles_of(const Step& step) {
    const auto roles =
        step.part_roles ? parse_part_roles(*step.part_roles) : Result<Roles>(Roles());
    return roles ? *roles : Roles();
}

Roles roles_of(const Gate& gate) {
    const auto needs = gate.needs ? parse_needs(*gate.needs) : Result<std::vector<Need>>(Error{});
    Roles roles;
    if (needs) {
        for (const Need& need : *needs) {
            roles.insert(roles.end(), need.roles.begin(), need.roles.end());
        }
    }
    return roles;
}

bool has(const Roles& roles, const std::optional<std::string>& role) {
    return role && std::find(roles.begin(), roles.end(), *role) != roles.end();
}

/// Whether it is still to come, and no other stands in its place.
bool is_awaited(const PlanAndParts& build, const PartRecord& part, std::string_view today) {
    const auto wait = part_wait(part, today);
    const bool replaced =
        std::any_of(build.parts.begin(), build.parts.end(), [&](const PartRecord& other) {
            return other.id != part.id && other.replaces_id == part.id && !other.returned;
        });
    return wait && is_to_come(*wait) && !replaced;
}

/// Parts still to come for which `belongs` holds.
template <typename Belongs>
int to_come(const PlanAndParts& build, std::string_view today, const Belongs& belongs) {
    return static_cast<int>(std::count_if(
        build.parts.begin(), build.parts.end(),
        [&](const PartRecord& part) { return belongs(part) && is_awaited(build, part, today); }));
}

} // namespace

std::vector<Arrival> what_arrives_for(const PlanAndParts& build, const PartRecord& part,
                                      std::string_view today) {
    std::vector<Arrival> waiting;
    if (!is_awaited(build, part, today)) {
        return waiting;
    }
    for (const Stage& stage : build.stages) {
        for (const Step& step : build.steps) {
            const Roles roles = roles_of(step);
            const auto belongs = [&](const PartRecord& one) {
                return one.step_id == step.id || has(roles, one.role);
            };
            if (step.stage_id == stage.id && !is_done(step) && belongs(part)) {
                waiting.push_back(
                    {stage.id, step.id, std::nullopt, to_come(build, today, belongs) - 1});
            }
        }
        for (const Gate& gate : build.gates) {
            const Roles roles = roles_of(gate);
            const auto belongs = [&](const PartRecord& one) { return has(roles, one.role); };
            if (gate.stage_id == stage.id && belongs(part)) {
                waiting.push_back(
                    {stage.id, std::nullopt, gate.id, to_come(build, today, belongs) - 1});
            }
        }
    }
    return waiting;
}

} // namespace rodway
