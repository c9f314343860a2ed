#include "core/break_in/stop_rules.h"

#include <algorithm>
#include <set>

#include "core/units/pressure.h"
#include "core/units/temperature.h"

namespace rodway {
namespace {

constexpr auto practice = FigureSource::common_practice;

StopRuleLimit by_number(StopRule rule, std::optional<double> low, std::optional<double> high) {
    return {rule, FigureBand{low, high, practice}, practice};
}
StopRuleLimit by_looking(StopRule rule) {
    return {rule, {}, practice};
}

bool is_number(StopRule rule) {
    return rule == StopRule::oil_pressure_in_time || rule == StopRule::oil_pressure_held ||
           rule == StopRule::coolant_temperature;
}

std::optional<Error> wrong_start(const FirstStart& start) {
    const Interval good = Interval::exactly(0.0);
    return first_outside(
        {{"oil_pressure_after", start.oil_pressure_after_s.value_or(good), {0.0, 3600.0, "s"}},
         {"least_oil_pressure", start.least_oil_pressure_kPa.value_or(good), {0.0, 2000.0, "kPa"}},
         {"hottest_coolant", start.hottest_coolant_degC.value_or(good), {-50.0, 200.0, "degC"}}});
}

std::optional<Error> wrong_rules(const std::vector<StopRuleLimit>& rules) {
    std::set<StopRule> seen;
    int line = 0;
    for (const StopRuleLimit& limit : rules) {
        ++line;
        if (!seen.insert(limit.rule).second) {
            return Error{ErrorCode::duplicate_field, "rule", {}, {}, line, {}};
        }
        if (is_number(limit.rule) && !limit.band) {
            return Error{ErrorCode::missing_field, "band", {}, {}, line, {}};
        }
    }
    return std::nullopt;
}

StopRuleState state_of(const std::optional<Interval>& seen, const FigureBand& band) {
    if (!seen) {
        return StopRuleState::not_looked_at;
    }
    switch (standing(*seen, band)) {
        case BandStanding::inside:
            return StopRuleState::kept;
        case BandStanding::below:
        case BandStanding::above:
            return StopRuleState::stop;
        default:
            return StopRuleState::undecided;
    }
}

StopRuleState state_of(const std::optional<bool>& seen, bool wanted) {
    if (!seen) {
        return StopRuleState::not_looked_at;
    }
    return *seen == wanted ? StopRuleState::kept : StopRuleState::stop;
}

std::optional<Interval> number_seen(const FirstStart& start, StopRule rule) {
    switch (rule) {
        case StopRule::oil_pressure_in_time:
            return start.oil_pressure_after_s;
        case StopRule::oil_pressure_held:
            return start.least_oil_pressure_kPa;
        case StopRule::coolant_temperature:
            return start.hottest_coolant_degC;
        default:
            return std::nullopt;
    }
}

StopRuleState looked_at(const FirstStart& start, StopRule rule) {
    switch (rule) {
        case StopRule::oil_at_every_rocker:
            return state_of(start.oil_at_every_rocker, true);
        case StopRule::pushrods_turn:
            return state_of(start.pushrods_turn, true);
        case StopRule::no_knock:
            return state_of(start.knock, false);
        case StopRule::no_leak:
            return state_of(start.leak, false);
        default:
            return StopRuleState::not_looked_at;
    }
}

} // namespace

std::vector<StopRuleLimit> usual_stop_rules() {
    return {
        by_number(StopRule::oil_pressure_in_time, {}, 10.0),
        by_number(StopRule::oil_pressure_held, Pressure::psi(20.0).in_kPa(), {}),
        by_number(StopRule::coolant_temperature, {}, Temperature::degF(220.0).in_degC()),
        by_looking(StopRule::oil_at_every_rocker),
        by_looking(StopRule::pushrods_turn),
        by_looking(StopRule::no_knock),
        by_looking(StopRule::no_leak),
    };
}

std::vector<StopRuleLimit> with_makers(const std::vector<StopRuleLimit>& usual,
                                       const std::vector<StopRuleLimit>& makers) {
    std::vector<StopRuleLimit> rules = usual;
    for (StopRuleLimit limit : makers) {
        limit.source = FigureSource::makers_instructions;
        if (limit.band) {
            limit.band->source = FigureSource::makers_instructions;
        }
        const auto same = std::find_if(rules.begin(), rules.end(), [&](const StopRuleLimit& each) {
            return each.rule == limit.rule;
        });
        if (same != rules.end()) {
            *same = limit;
        } else {
            rules.push_back(limit);
        }
    }
    return rules;
}

Result<std::vector<StopRuleStanding>> stop_rules(const FirstStart& start,
                                                 const std::vector<StopRuleLimit>& rules) {
    if (const auto bad = wrong_start(start)) {
        return *bad;
    }
    if (const auto bad = wrong_rules(rules)) {
        return *bad;
    }
    std::vector<StopRuleStanding> standings;
    for (const StopRuleLimit& limit : rules) {
        StopRuleStanding at{limit, StopRuleState::not_looked_at, number_seen(start, limit.rule)};
        at.state =
            is_number(limit.rule) ? state_of(at.seen, *limit.band) : looked_at(start, limit.rule);
        standings.push_back(at);
    }
    return standings;
}

} // namespace rodway
