#include "core/valvetrain/lash_history.h"

#include <algorithm>
#include <set>

#include "core/units/length.h"

namespace rodway {
namespace {

std::optional<Error> wrong_check(const LashCheck& check, int line) {
    const Limits lashes{0.0, 10.0, "mm"};
    const Interval good = Interval::exactly(0.0);
    std::set<ValvePosition> seen;
    for (const CheckedLash& each : check.valves) {
        if (!seen.insert(each.valve).second) {
            return Error{
                ErrorCode::duplicate_field, "valve", position_name(each.valve), {}, line, {}};
        }
        if (auto bad = first_outside({{"found", each.found_mm.value_or(good), lashes, line},
                                      {"left", each.left_mm.value_or(good), lashes, line}})) {
            return bad;
        }
    }
    return std::nullopt;
}

const CheckedLash* in_check(const LashCheck& check, const ValvePosition& valve) {
    for (const CheckedLash& each : check.valves) {
        if (each.valve == valve) {
            return &each;
        }
    }
    return nullptr;
}

/// How a valve was left before the last check, at that check's heat.
std::optional<Interval> left_before(const std::vector<LashCheck>& checks,
                                    const ValvePosition& valve) {
    const EngineHeat heat = checks.back().heat;
    for (auto check = checks.rbegin() + 1; check != checks.rend(); ++check) {
        const CheckedLash* lash = in_check(*check, valve);
        if (lash == nullptr) {
            continue;
        }
        if (check->heat != heat) {
            if (lash->left_mm) {
                return std::nullopt;
            }
            continue;
        }
        if (lash->left_mm || lash->found_mm) {
            return lash->left_mm ? lash->left_mm : lash->found_mm;
        }
    }
    return std::nullopt;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

FigureBand within(double alarm_mm) {
    return {-alarm_mm, alarm_mm, FigureSource::shop};
}

LashChange change_of(const Interval& opened_by_mm, double alarm_mm) {
    switch (standing(opened_by_mm, within(alarm_mm))) {
        case BandStanding::inside:
            return LashChange::steady;
        case BandStanding::below:
            return LashChange::closed;
        case BandStanding::above:
            return LashChange::opened;
        default:
            return LashChange::may_have_changed;
    }
}

LashSinceLast since_last(const std::vector<LashCheck>& checks, const ValvePosition& valve,
                         double alarm_mm) {
    LashSinceLast since;
    since.valve = valve;
    since.was_mm = left_before(checks, valve);
    const CheckedLash* now = in_check(checks.back(), valve);
    if (now == nullptr || !now->found_mm) {
        since.change = LashChange::not_looked_at;
        return since;
    }
    since.now_mm = now->found_mm;
    if (since.was_mm) {
        since.opened_by_mm = *since.now_mm - *since.was_mm;
        since.change = change_of(*since.opened_by_mm, alarm_mm);
    }
    return since;
}

void set_apart(LashHistory& history, double alarm_mm) {
    std::vector<double> changes_mm;
    for (const LashSinceLast& since : history.valves) {
        if (since.opened_by_mm) {
            changes_mm.push_back(since.opened_by_mm->middle());
        }
    }
    if (changes_mm.empty()) {
        return;
    }
    history.shared_change_mm = median(changes_mm);
    for (LashSinceLast& since : history.valves) {
        if (since.opened_by_mm) {
            since.apart_from_rest_mm =
                *since.opened_by_mm - Interval::exactly(*history.shared_change_mm);
            const BandStanding apart = standing(*since.apart_from_rest_mm, within(alarm_mm));
            since.apart = apart == BandStanding::below || apart == BandStanding::above;
        }
    }
}

} // namespace

Result<LashHistory> lash_since_last(const std::vector<LashCheck>& checks, double alarm_mm) {
    if (checks.empty()) {
        return Error{ErrorCode::too_few_rows, "checks", "0", "1", {}, {}};
    }
    if (const auto bad =
            first_outside({{"alarm", Interval::exactly(alarm_mm), {0.0, 5.0, "mm"}}})) {
        return *bad;
    }
    std::set<ValvePosition> valves;
    int line = 0;
    for (const LashCheck& check : checks) {
        if (const auto bad = wrong_check(check, ++line)) {
            return *bad;
        }
        for (const CheckedLash& each : check.valves) {
            valves.insert(each.valve);
        }
    }
    LashHistory history;
    for (const ValvePosition& valve : valves) {
        history.valves.push_back(since_last(checks, valve, alarm_mm));
    }
    set_apart(history, alarm_mm);
    return history;
}

FigureBand usual_lash_change_mm() {
    const double change_mm = Length::inches(0.003).in_mm();
    return {-change_mm, change_mm, FigureSource::common_practice};
}

} // namespace rodway
