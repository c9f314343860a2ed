#include <algorithm>

#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/sheets/reading_interval.h"
#include "core/valvetrain/lash_growth.h"
#include "core/valvetrain/lash_history.h"

namespace rodway {
namespace {

/// One lash as it was set, or measured on the same setting at the other heat.
struct LashTake {
    std::int64_t id = 0;
    std::string valve;
    EngineHeat heat = EngineHeat::cold;
    Interval lash_mm;
    bool again = false; ///< at this heat it had been written before: it was set anew
};

void collect(const Taken& taken, EngineHeat heat, std::vector<LashTake>& takes) {
    const std::string valve = *taken.place.part(PlacePart::valve);
    bool again = false;
    for (const EarlierTake& earlier : taken.earlier) {
        if (const auto lash_mm = interval_of(earlier.value)) {
            takes.push_back({earlier.id, valve, heat, *lash_mm, again});
            again = true;
        }
    }
    if (const auto lash_mm = taken.range()) {
        takes.push_back({taken.reading.id, valve, heat, *lash_mm, again});
    }
}

std::vector<LashTake> lashes_set(const TakenReadings& readings) {
    std::vector<LashTake> takes;
    for (const Taken& taken : readings.of("lash_cold")) {
        collect(taken, EngineHeat::cold, takes);
    }
    for (const Taken& taken : readings.of("lash_hot")) {
        collect(taken, EngineHeat::hot, takes);
    }
    std::sort(takes.begin(), takes.end(),
              [](const LashTake& a, const LashTake& b) { return a.id < b.id; });
    return takes;
}

/// What was set before, one check each, and the last round of what was found at one heat. The
/// first figure at the other heat is taken of the same setting, and sets nothing.
std::vector<LashCheck> checks_at(const TakenReadings& readings, EngineHeat heat,
                                 std::string_view found) {
    std::vector<LashCheck> checks;
    LashCheck last{heat, {}};
    for (const Taken& taken : readings.of(found)) {
        const auto lash_mm = taken.range();
        if (!lash_mm) {
            continue;
        }
        const std::string valve = *taken.place.part(PlacePart::valve);
        for (const LashTake& set : lashes_set(readings)) {
            const bool counts = set.heat == heat || set.again;
            if (set.valve == valve && set.id < taken.reading.id && counts) {
                checks.push_back({set.heat, {{valve_called(valve), {}, set.lash_mm}}});
            }
        }
        last.valves.push_back({valve_called(valve), lash_mm, {}});
    }
    if (!last.valves.empty()) {
        checks.push_back(last);
    }
    return checks;
}

void add_changes(WorkedFigures& figures, const TakenReadings& readings, EngineHeat heat,
                 std::string_view found, std::string_view change) {
    const auto checks = checks_at(readings, heat, found);
    if (checks.empty()) {
        return;
    }
    const auto history = lash_since_last(checks, *usual_lash_change_mm().high);
    if (!history) {
        return;
    }
    for (const LashSinceLast& valve : history->valves) {
        const std::string position = position_name(valve.valve);
        figures.add(change, position, valve.opened_by_mm);
        if (valve.apart) {
            figures.point_out(PointedOut::odd_one_out, change, {position},
                              {valve.opened_by_mm->middle(), *history->shared_change_mm});
        }
    }
}

/// Cold less hot of the same setting, valve by valve.
std::optional<Interval> own_change(const TakenReadings& readings, const std::string& valve) {
    const auto cold_mm = readings.number("lash_cold", valve);
    const auto hot_mm = readings.number("lash_hot", valve);
    return cold_mm && hot_mm ? std::optional(*cold_mm - *hot_mm) : std::nullopt;
}

std::optional<EngineMetals> metals(const TakenReadings& readings) {
    const auto word = readings.word("engine_metals");
    if (word == "iron") {
        return EngineMetals::iron;
    }
    if (word == "aluminium") {
        return EngineMetals::aluminium;
    }
    return word == "iron_block_aluminium_heads"
               ? std::optional(EngineMetals::iron_block_aluminium_heads)
               : std::nullopt;
}

/// The cold setting for a wanted hot lash: by what this engine's own valves of the kind did, and by
/// the rule of the trade.
void add_cold_settings(WorkedFigures& figures, const TakenReadings& readings, ValveKind kind,
                       const std::vector<Interval>& own_changes) {
    const std::string position = kind == ValveKind::intake ? "I" : "E";
    const auto hot_mm = readings.number("lash_hot_wanted", position);
    if (!hot_mm) {
        return;
    }
    LashGrowthKnown known;
    if (!own_changes.empty()) {
        known.own_cold_less_hot_mm = mean_of(own_changes);
    }
    known.metals = metals(readings);
    // What is wanted is a figure of the card: its last digit is no doubt.
    const auto choices = cold_lash_choices(Interval::exactly(hot_mm->middle()), known);
    if (!choices) {
        return;
    }
    for (const LashOffset& choice : *choices) {
        if (choice.basis == LashOffsetBasis::measured_here) {
            figures.add("lash_cold_by_own_change", position, choice.cold_lash_mm);
        } else if (choice.basis == LashOffsetBasis::rule) {
            figures.add("lash_cold_by_rule", position, choice.cold_lash_mm);
        }
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    std::vector<Interval> intake_changes;
    std::vector<Interval> exhaust_changes;
    for (const std::string& valve : valves_read(facts.readings, {"lash_cold", "lash_hot"})) {
        if (const auto change_mm = own_change(facts.readings, valve)) {
            figures.add("lash_cold_less_hot", valve, change_mm);
            const bool intake = valve_called(valve).kind == ValveKind::intake;
            (intake ? intake_changes : exhaust_changes).push_back(*change_mm);
        }
    }
    add_changes(figures, facts.readings, EngineHeat::cold, "lash_found_cold", "lash_change_cold");
    add_changes(figures, facts.readings, EngineHeat::hot, "lash_found_hot", "lash_change_hot");
    add_cold_settings(figures, facts.readings, ValveKind::intake, intake_changes);
    add_cold_settings(figures, facts.readings, ValveKind::exhaust, exhaust_changes);
    return figures.outcome();
}

std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    const FigureBand change = usual_lash_change_mm();
    return {common_practice("lash_change_cold", change.low, change.high),
            common_practice("lash_change_hot", change.low, change.high)};
}

} // namespace

SheetKind lash_sheet() {
    const Origin follows = Origin::worked_out;
    return {"lash",
            {
                {"lash_hot", Form::lash, Place::valve, "in", "hot"},
                {"lash_cold", Form::lash, Place::valve, "in", "cold"},
                {"lash_cold_less_hot", Form::length, Place::valve, "in", "", follows},
                {"lash_found_hot", Form::lash, Place::valve, "in", "hot"},
                {"lash_change_hot", Form::length, Place::valve, "in", "", follows},
                {"lash_found_cold", Form::lash, Place::valve, "in", "cold"},
                {"lash_change_cold", Form::length, Place::valve, "in", "", follows},
                {"lash_hot_wanted", Form::length, Place::card_lobe, "in"},
                {"engine_metals", Form::choice, Place::engine, "",
                 "iron iron_block_aluminium_heads aluminium"},
                {"lash_cold_by_own_change", Form::length, Place::card_lobe, "in", "", follows},
                {"lash_cold_by_rule", Form::length, Place::card_lobe, "in", "", follows},
                {"dry_clearance", Form::length, Place::valve, "in"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
