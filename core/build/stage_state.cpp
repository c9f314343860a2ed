#include "core/build/stage_state.h"

#include <algorithm>

#include "core/build/cure_state.h"
#include "core/build/hold_finder.h"
#include "core/build/part_role.h"
#include "core/build/stage_sign_off.h"

namespace rodway {
namespace {

bool has_gates(const HoldFacts& facts, std::int64_t stage_id) {
    return std::any_of(facts.records.gates.begin(), facts.records.gates.end(),
                       [&](const Gate& gate) { return gate.stage_id == stage_id; });
}

StageState state_of(const HoldFacts& facts, const Stage& stage) {
    StageState state;
    state.stage_id = stage.id;
    for (const Step& step : facts.records.steps) {
        if (step.stage_id == stage.id) {
            ++state.steps;
            state.steps_done += is_done(step) ? 1 : 0;
        }
    }
    for (const Hold& hold : holds_of_stage(facts, stage.id).holds) {
        ++(hold.stands() ? state.standing : state.waived);
    }
    const auto signed_off = sign_offs_of_stage(facts.records, stage.id);
    if (!signed_off.empty()) {
        state.sign_off_id = signed_off.back().id;
        state.overtaken =
            state.standing > 0 ||
            std::any_of(signed_off.begin(), signed_off.end(), [&](const SignOff& one) {
                return std::find(facts.overtaken.begin(), facts.overtaken.end(), one.id) !=
                       facts.overtaken.end();
            });
    }
    const bool done = state.steps_done == state.steps && state.standing == 0;
    state.passed = state.sign_off_id ? !state.overtaken : done && !has_gates(facts, stage.id);
    return state;
}

/// Whether a cure is still wet that the work at this step must not touch: one at the step, or at
/// one before it in the same stage.
bool is_wet_before(const HoldFacts& facts, std::int64_t cure_id, const Step& step) {
    for (const Cure& cure : facts.records.cures) {
        if (cure.id != cure_id) {
            continue;
        }
        const CureStage stage = cure_state(cure, facts.now_utc).stage;
        return (stage == CureStage::wet || stage == CureStage::not_known) &&
               std::any_of(facts.records.steps.begin(), facts.records.steps.end(),
                           [&](const Step& at) {
                               return cure.step_id == at.id && at.stage_id == step.stage_id &&
                                      at.ordinal <= step.ordinal;
                           });
    }
    return false;
}

/// Whether a part that is waited for must be there to do the step; to fit it is the step itself.
bool needs_part(const HoldFacts& facts, const Hold& hold, const Step& step) {
    if (hold.kind != HoldKind::part_awaited || hold.wait == PartWait::not_fitted) {
        return false;
    }
    std::string role = hold.wait == PartWait::not_listed ? hold.subject : std::string();
    for (const PartRecord& part : facts.records.parts) {
        if (hold.record == RecordRef{RecordKind::part, part.id}) {
            if (part.step_id == step.id) {
                return true;
            }
            role = part.role.value_or(std::string());
        }
    }
    const auto roles = step.part_roles ? parse_part_roles(*step.part_roles)
                                       : Result<std::vector<std::string>>(Error{});
    return roles && std::find(roles->begin(), roles->end(), role) != roles->end();
}

/// Of the holds that stand the one that keeps this step from being done.
const Hold* what_keeps(const HoldFacts& facts, const std::vector<Hold>& holds, const Step& step) {
    for (const Hold& hold : holds) {
        const bool part = needs_part(facts, hold, step);
        const bool cure = hold.kind == HoldKind::cure_running && hold.record &&
                          is_wet_before(facts, hold.record->id, step);
        if (hold.stands() && (part || cure)) {
            return &hold;
        }
    }
    return nullptr;
}

} // namespace

std::vector<StageState> stage_states(const HoldFacts& facts) {
    std::vector<StageState> states;
    for (const Stage& stage : facts.records.stages) {
        states.push_back(state_of(facts, stage));
    }
    return states;
}

std::optional<std::int64_t> stage_in_hand(const HoldFacts& facts) {
    for (const Stage& stage : facts.records.stages) {
        if (!state_of(facts, stage).passed) {
            return stage.id;
        }
    }
    return std::nullopt;
}

NextThing next_thing(const HoldFacts& facts) {
    const auto stage_id = stage_in_hand(facts);
    if (!stage_id) {
        return {};
    }
    const std::vector<Hold> holds = holds_of_stage(facts, *stage_id).holds;
    const Hold* first_wait = nullptr;
    std::optional<std::int64_t> first_step;
    for (const Step& step : facts.records.steps) {
        if (step.stage_id != *stage_id || is_done(step)) {
            continue;
        }
        const Hold* wait = what_keeps(facts, holds, step);
        if (wait == nullptr) {
            return {NextKind::step, stage_id, step.id};
        }
        if (first_wait == nullptr) {
            first_wait = wait;
            first_step = step.id;
        }
    }
    if (first_wait != nullptr) {
        return {NextKind::wait, stage_id, first_step, *first_wait};
    }
    const auto standing =
        std::find_if(holds.begin(), holds.end(), [](const Hold& hold) { return hold.stands(); });
    if (standing != holds.end()) {
        return {NextKind::hold, stage_id, standing->step_id, *standing};
    }
    return {NextKind::sign_off, stage_id};
}

} // namespace rodway
