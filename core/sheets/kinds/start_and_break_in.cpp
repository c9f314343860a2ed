#include <algorithm>

#include "core/break_in/minutes_by_speed.h"
#include "core/break_in/stop_rules.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/valvetrain/lash_history.h"

namespace rodway {
namespace {

/// One answer for all valves looked at: "no" at one is "no"; nobody looked: nothing.
std::optional<bool> at_all_valves(const TakenReadings& readings, const char* quantity,
                                  std::vector<std::string>& at_which_not) {
    std::optional<bool> all;
    for (const Taken& taken : readings.of(quantity)) {
        if (taken.value.said != Said::words) {
            continue;
        }
        const bool yes = taken.value.words == "yes";
        all = all.value_or(true) && yes;
        if (!yes) {
            at_which_not.push_back(sheet_position_text(taken.place));
        }
    }
    return all;
}

std::optional<bool> yes_or_no(const TakenReadings& readings, const char* quantity) {
    const auto word = readings.word(quantity);
    return word ? std::optional(*word == "yes") : std::nullopt;
}

/// Where each rule's answer stands on the sheets.
const char* quantity_of(StopRule rule) {
    switch (rule) {
        case StopRule::oil_pressure_in_time:
            return "oil_pressure_after";
        case StopRule::oil_pressure_held:
            return "first_start_oil_pressure";
        case StopRule::coolant_temperature:
            return "first_start_temperature";
        case StopRule::oil_at_every_rocker:
            return "oil_at_rocker";
        case StopRule::pushrods_turn:
            return "pushrod_turns_running";
        case StopRule::no_knock:
            return "start_knock";
        case StopRule::no_leak:
            return "start_leak";
    }
    return "";
}

/// A rule of numbers is broken at the end of its band that the reading missed.
std::vector<double> broken_by(const StopRuleStanding& standing) {
    if (!standing.seen || !standing.limit.band) {
        return {};
    }
    const FigureBand& band = *standing.limit.band;
    return {standing.seen->middle(), band.low ? *band.low : *band.high};
}

void judge_start(WorkedFigures& figures, const TakenReadings& readings) {
    std::vector<std::string> dry_rockers;
    std::vector<std::string> rods_standing_still;
    FirstStart start;
    start.oil_pressure_after_s = readings.number("oil_pressure_after");
    start.least_oil_pressure_kPa = readings.number("first_start_oil_pressure");
    start.hottest_coolant_degC = readings.number("first_start_temperature");
    start.oil_at_every_rocker = at_all_valves(readings, "oil_at_rocker", dry_rockers);
    start.pushrods_turn = at_all_valves(readings, "pushrod_turns_running", rods_standing_still);
    start.knock = yes_or_no(readings, "start_knock");
    start.leak = yes_or_no(readings, "start_leak");
    for (std::optional<Interval>* pressing :
         {&start.oil_pressure_after_s, &start.least_oil_pressure_kPa}) {
        if (*pressing) {
            *pressing = not_below_zero(**pressing);
        }
    }
    const auto standings = stop_rules(start, usual_stop_rules());
    if (!standings) {
        return;
    }
    for (const StopRuleStanding& standing : *standings) {
        if (standing.state != StopRuleState::stop) {
            continue;
        }
        const StopRule rule = standing.limit.rule;
        std::vector<std::string> positions{""};
        if (rule == StopRule::oil_at_every_rocker) {
            positions = dry_rockers;
        } else if (rule == StopRule::pushrods_turn) {
            positions = rods_standing_still;
        }
        figures.point_out(PointedOut::stop_rule, quantity_of(rule), positions, broken_by(standing));
    }
}

struct Stretch {
    std::string day;
    int time_of_day = 1; ///< which stretch of that day
    SpeedStretch stretch;
};

/// The stretches of which both minutes and speed were written, in the order in which they were run.
std::vector<SpeedStretch> stretches(const TakenReadings& readings) {
    std::vector<Stretch> log;
    for (const Taken& taken : readings.of("break_in_time")) {
        const auto time_s = taken.range();
        const auto rpm = readings.number("break_in_speed", sheet_position_text(taken.place));
        if (time_s && rpm) {
            const auto ordinal = taken.place.part(PlacePart::ordinal);
            log.push_back({*taken.place.part(PlacePart::day),
                           ordinal ? std::stoi(*ordinal) : 1,
                           {not_below_zero(*rpm), not_below_zero(*time_s / 60.0)}});
        }
    }
    std::sort(log.begin(), log.end(), [](const Stretch& a, const Stretch& b) {
        return a.day != b.day ? a.day < b.day : a.time_of_day < b.time_of_day;
    });
    std::vector<SpeedStretch> run;
    for (const Stretch& one : log) {
        run.push_back(one.stretch);
    }
    return run;
}

void add_minutes(WorkedFigures& figures, const TakenReadings& readings) {
    const auto run = stretches(readings);
    const auto minutes = minutes_by_speed(run, usual_break_in_plan());
    if (!minutes) {
        return;
    }
    figures.add("break_in_total", "", minutes->total_min * 60.0);
    figures.add("break_in_in_band", "", minutes->in_band_min * 60.0);
    figures.add("break_in_longest_idle", "", minutes->longest_idle_min * 60.0);
    figures.add("break_in_missing", "", minutes->missing_min * 60.0);
}

/// Beside the lash set at the same heat: hot, unless "cold" stands behind it or only that was set.
void add_lash_change(WorkedFigures& figures, const TakenReadings& readings) {
    for (const Taken& taken : readings.of("lash_after_run")) {
        const auto after_mm = taken.range();
        const std::string valve = sheet_position_text(taken.place);
        const auto hot_mm = readings.number("lash_hot", valve);
        const auto cold_mm = readings.number("lash_cold", valve);
        const bool hot = taken.value.words == "hot" || (taken.value.words.empty() && hot_mm);
        const auto& before_mm = hot ? hot_mm : cold_mm;
        if (after_mm && before_mm) {
            figures.add("lash_change_after_run", valve, *after_mm - *before_mm);
        }
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    judge_start(figures, facts.readings);
    add_lash_change(figures, facts.readings);
    add_minutes(figures, facts.readings);
    return figures.outcome();
}

/// Rollers need no break-in of this kind; what the set-up doesn't say is taken to be flat.
bool may_have_flat_tappets(const SheetFacts& facts) {
    if (facts.engine == nullptr || facts.engine->trains.empty()) {
        return true;
    }
    return std::any_of(
        facts.engine->trains.begin(), facts.engine->trains.end(),
        [](const Train& train) { return train.lifter.follower == FollowerKind::flat; });
}

std::vector<SheetLimit> usual_limits(const SheetFacts& facts) {
    const FigureBand lash_change = usual_lash_change_mm();
    std::vector<SheetLimit> limits{
        common_practice("lash_change_after_run", lash_change.low, lash_change.high)};
    for (const StopRuleLimit& rule : usual_stop_rules()) {
        if (rule.band) {
            limits.push_back(
                common_practice(quantity_of(rule.rule), rule.band->low, rule.band->high));
        }
    }
    if (may_have_flat_tappets(facts)) {
        limits.push_back(
            common_practice("break_in_in_band", usual_break_in_plan().minutes * 60.0, {}));
    }
    return limits;
}

} // namespace

SheetKind start_and_break_in_sheet() {
    const Origin follows = Origin::worked_out;
    return {"start_and_break_in",
            {
                {"prime_time", Form::time, Place::engine, "min"},
                {"oil_at_rocker", Form::yes_no, Place::valve},
                {"oil_pressure_after", Form::time, Place::engine, "s"},
                {"first_start_oil_pressure", Form::pressure, Place::engine, "psi"},
                {"first_start_temperature", Form::temperature, Place::engine, "degF"},
                {"pushrod_turns_running", Form::yes_no, Place::valve},
                {"start_knock", Form::yes_no, Place::engine},
                {"start_leak", Form::yes_no, Place::engine},
                {"break_in_time", Form::time, Place::series, "min"},
                {"break_in_speed", Form::speed, Place::series, "rpm"},
                {"break_in_total", Form::time, Place::engine, "min", "", follows},
                {"break_in_in_band", Form::time, Place::engine, "min", "", follows},
                {"break_in_longest_idle", Form::time, Place::engine, "min", "", follows},
                {"break_in_missing", Form::time, Place::engine, "min", "", follows},
                {"start_faults", Form::words, Place::series},
                {"lash_after_run", Form::lash, Place::valve, "in", "hot cold"},
                {"lash_change_after_run", Form::length, Place::valve, "in", "", follows},
                {"retorque", Form::torque, Place::bolt, "lb-ft"},
                {"filter_look", Form::words, Place::engine},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
