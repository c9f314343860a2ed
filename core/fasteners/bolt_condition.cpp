#include "core/fasteners/bolt_condition.h"

#include "core/units/within.h"

namespace rodway {
namespace {

/// Differences of sizes typed in inches don't come out even; a limit met to this is met.
constexpr double rounding_mm = 1e-6;

std::optional<Error> judge_necking(const BoltCondition& condition, const BoltRules& rules,
                                   BoltStanding& standing) {
    if (!condition.shank_mm || !condition.narrowest_mm) {
        return std::nullopt;
    }
    const Limits diameters{1.0, 60.0, "mm"};
    if (auto bad = wrong_interval("shank", *condition.shank_mm, diameters)) {
        return bad;
    }
    if (auto bad = wrong_interval("narrowest", *condition.narrowest_mm, diameters)) {
        return bad;
    }
    standing.necking_mm = *condition.shank_mm - *condition.narrowest_mm;
    if (standing.necking_mm->low > rules.most_necking_mm + rounding_mm) {
        standing.faults.push_back(BoltFault::necked);
        standing.refused = true;
    } else if (standing.necking_mm->high > rules.most_necking_mm + rounding_mm) {
        standing.faults.push_back(BoltFault::may_be_necked);
    }
    return std::nullopt;
}

std::optional<Error> judge_set(const BoltCondition& condition, const BoltRules& rules,
                               BoltStanding& standing) {
    if (!condition.new_length_mm || !condition.length_now_mm) {
        return std::nullopt;
    }
    const auto set = permanent_set(*condition.new_length_mm, *condition.length_now_mm, rules.set);
    if (!set) {
        return set.error();
    }
    standing.set = *set;
    switch (set->standing) {
        case SetStanding::beyond:
            standing.faults.push_back(BoltFault::stretched);
            standing.refused = true;
            break;
        case SetStanding::too_close_to_call:
            standing.faults.push_back(BoltFault::may_be_stretched);
            break;
        case SetStanding::shorter:
            standing.faults.push_back(BoltFault::shorter_than_new);
            break;
        case SetStanding::none_seen:
        case SetStanding::within:
            break;
    }
    return std::nullopt;
}

} // namespace

Result<BoltStanding> judge_bolt(const BoltCondition& condition, const BoltRules& rules) {
    if (auto bad = outside("necking", rules.most_necking_mm, {0.0, 5.0, "mm"})) {
        return *bad;
    }
    BoltStanding standing;
    standing.bolt = condition.bolt;
    if (const auto bad = judge_necking(condition, rules, standing)) {
        return *bad;
    }
    if (const auto bad = judge_set(condition, rules, standing)) {
        return *bad;
    }
    if (rules.single_use && condition.reused.value_or(true)) {
        const bool known = condition.reused.has_value();
        standing.faults.push_back(known ? BoltFault::used_twice : BoltFault::reuse_unknown);
        standing.refused = standing.refused || known;
    }
    return standing;
}

} // namespace rodway
