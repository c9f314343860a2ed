#include "core/sheets/kinds/bolt_loads.h"

#include <algorithm>

#include "core/fasteners/bolt_tightening.h"
#include "core/fasteners/fastener_size.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

/// A torque wrench's class by ISO 6789 (from memory).
constexpr double wrench_share = 0.04;

/// "7/16-14", or a size with its length, "7/16-14x4".
std::optional<Thread> thread_in(const std::string& words) {
    if (const auto thread = parse_thread(words)) {
        return *thread;
    }
    const auto size = parse_fastener_size(words);
    return size ? size->thread : std::nullopt;
}

std::optional<std::string> words_of(const Taken* taken) {
    return taken != nullptr && taken->value.said == Said::words ? std::optional(taken->value.words)
                                                                : std::nullopt;
}

std::optional<Thread> thread_of(const TakenReadings& readings, const SheetPosition& place) {
    const auto words = words_of(said_of_joint(readings, "joint_thread", place));
    return words ? thread_in(*words) : std::nullopt;
}

std::optional<FastenerStrength> strength_at(const TakenReadings& readings,
                                            const SheetPosition& place, const Thread& thread) {
    const auto words = words_of(said_of_joint(readings, "joint_grade", place));
    const auto strength =
        words ? strength_of(*words, thread.diameter_mm) : Result<FastenerStrength>(Error{});
    return strength ? std::optional(*strength) : std::nullopt;
}

/// Only lubricants that have a published factor: of others the shop knows its own.
std::optional<NutFactor> factor_of_lubricant(const std::string& words) {
    std::string id = plain_text(words);
    std::replace(id.begin(), id.end(), ' ', '_');
    const auto lubricant = lubricant_called(id);
    return lubricant ? std::optional(lubricant->nut_factor()) : std::nullopt;
}

/// The joint's own factor before one by its lubricant.
std::optional<NutFactor> factor_at(const TakenReadings& readings, const SheetPosition& place) {
    if (const Taken* own = said_of_joint(readings, "joint_nut_factor", place)) {
        if (const auto range = own->range()) {
            return NutFactor{range->low, range->middle(), range->high};
        }
    }
    const auto of_joint = words_of(said_of_joint(readings, "joint_lubricant", place));
    return of_joint ? factor_of_lubricant(*of_joint) : std::nullopt;
}

} // namespace

void add_joint_loads(SheetOutcome& outcome, const TakenReadings& readings) {
    for (const Taken& taken : readings.of("joint_thread")) {
        const auto words = words_of(&taken);
        if (!words) {
            continue;
        }
        const std::string position = sheet_position_text(taken.place);
        const auto thread = thread_in(*words);
        if (!thread) {
            outcome.findings.push_back({PointedOut::not_understood,
                                        "joint_thread",
                                        {position},
                                        {},
                                        Dimension::none,
                                        *words});
            continue;
        }
        const auto strength = strength_at(readings, taken.place, *thread);
        const auto preload =
            strength ? recommended_preload(*thread, *strength, JointUse::reused) : std::nullopt;
        if (!preload) {
            continue;
        }
        outcome.figures.push_back(
            {"joint_usual_preload", position, Interval::exactly(preload->in_N())});
        const auto factor = factor_at(readings, taken.place);
        const auto torque = factor ? torque_for_preload(*preload, thread->diameter_mm, *factor)
                                   : Result<TorqueRange>(Error{});
        if (torque) {
            outcome.figures.push_back(
                {"joint_usual_torque", position, {torque->low.in_Nm(), torque->high.in_Nm()}});
        }
    }
}

void add_bolt_loads(SheetOutcome& outcome, const TakenReadings& readings, const LoggedJoint& joint,
                    const std::vector<std::optional<Interval>>& end_torque_Nm) {
    for (std::size_t at = 0; at < joint.bolts.size(); ++at) {
        const SheetPosition& place = joint.bolts[at].place;
        const std::string position = joint.bolts[at].position();
        const auto thread = thread_of(readings, place);
        const auto own_lubricant = readings.word("fastener_lubricant", position);
        const auto factor =
            own_lubricant ? factor_of_lubricant(*own_lubricant) : factor_at(readings, place);
        if (!end_torque_Nm[at] || !thread || !factor) {
            continue;
        }
        const auto preload = preload_at_torque(Torque::Nm(end_torque_Nm[at]->middle()),
                                               thread->diameter_mm, *factor, wrench_share);
        if (!preload) {
            continue;
        }
        outcome.figures.push_back(
            {"fastener_preload", position, {preload->low.in_N(), preload->high.in_N()}});
        const auto strength = strength_at(readings, place, *thread);
        const auto low = strength ? share_of_proof(preload->low, *thread, *strength) : std::nullopt;
        if (low) {
            outcome.figures.push_back(
                {"fastener_proof_share",
                 position,
                 {100.0 * *low, 100.0 * *share_of_proof(preload->high, *thread, *strength)}});
        }
    }
}

} // namespace rodway
