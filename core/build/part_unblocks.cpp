#include "core/build/part_unblocks.h"

#include <algorithm>

#include "core/build/need.h"
#include "core/build/part_role.h"
#include "core/build/part_wait.h"

namespace rodway {
namespace {

bool is_to_come(const PartPlan& plan, const PartRecord& part, std::string_view today) {
    const auto wait = part_wait(part, today);
    const bool replaced =
        std::any_of(plan.parts.begin(), plan.parts.end(), [&](const PartRecord& other) {
            return other.id != part.id && other.replaces_id == part.id && !other.returned;
        });
    return wait && is_to_come(*wait) && !replaced;
}

bool holds(const std::vector<std::string>& roles, const PartRecord& part) {
    return part.role && std::find(roles.begin(), roles.end(), *part.role) != roles.end();
}

bool waits_for(const Step& step, const PartRecord& part) {
    if (part.step_id == step.id) {
        return true;
    }
    const auto roles = step.part_roles ? parse_part_roles(*step.part_roles)
                                       : Result<std::vector<std::string>>(Error{});
    return roles && holds(*roles, part);
}

bool waits_for(const Gate& gate, const PartRecord& part) {
    const auto needs = gate.needs ? parse_needs(*gate.needs) : Result<std::vector<Need>>(Error{});
    return needs && std::any_of(needs->begin(), needs->end(), [&](const Need& need) {
               return need.kind == NeedKind::parts && holds(need.roles, part);
           });
}

template <typename Waiting>
int others_for(const PartPlan& plan, const Waiting& waiting, const PartRecord& part,
               std::string_view today) {
    return static_cast<int>(
        std::count_if(plan.parts.begin(), plan.parts.end(), [&](const PartRecord& other) {
            return other.id != part.id && waits_for(waiting, other) &&
                   is_to_come(plan, other, today);
        }));
}

} // namespace

std::vector<PartUnblocks> unblocked_by(const PartPlan& plan, const PartRecord& part,
                                       std::string_view today) {
    std::vector<PartUnblocks> waiting;
    if (!is_to_come(plan, part, today)) {
        return waiting;
    }
    for (const Stage& stage : plan.stages) {
        for (const Step& step : plan.steps) {
            const bool open = !step.ticked_at && !step.not_needed;
            if (step.stage_id == stage.id && open && waits_for(step, part)) {
                waiting.push_back(
                    {stage.id, step.id, std::nullopt, others_for(plan, step, part, today)});
            }
        }
        for (const Gate& gate : plan.gates) {
            if (gate.stage_id == stage.id && waits_for(gate, part)) {
                waiting.push_back(
                    {stage.id, std::nullopt, gate.id, others_for(plan, gate, part, today)});
            }
        }
    }
    return waiting;
}

} // namespace rodway
