#include "app/valvetrain/barring_stops.h"

#include <QCoreApplication>

#include "app/words/barring_words.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/barring/full_lift_order.h"
#include "core/barring/lash_stops.h"
#include "core/barring/lash_walk.h"
#include "core/barring/open_valves.h"
#include "core/barring/shaft_windows.h"

namespace rodway {
namespace {

struct Barring {
    Q_DECLARE_TR_FUNCTIONS(Barring)
};

std::optional<ValvePosition> first_of(const std::vector<ValvePosition>& valves) {
    return valves.empty() ? std::nullopt : std::optional(valves.front());
}

QString standing_text(const ValveStanding& standing) {
    if (!standing.train_closes) {
        return Barring::tr("train doesn't close: may be open");
    }
    if (standing.open) {
        return Barring::tr("OPEN %1").arg(words::inches(standing.valve_lift_mm));
    }
    return standing.on_heel
               ? Barring::tr("shut, on the heel")
               : Barring::tr("shut, lobe lifts %1").arg(words::inches(standing.lobe_lift_mm));
}

QString lash_text(const LashStanding& lash) {
    if (lash.left_out) {
        return Barring::tr("not by the numbers");
    }
    return lash.now ? Barring::tr("now, for another %1")
                          .arg(words::crank_degrees(lash.stays_deg.value_or(0.0)))
                    : Barring::tr("after %1").arg(words::crank_degrees(*lash.turn_deg));
}

QStringList left_out_notes(const std::vector<LashLeftOut>& left_out) {
    QStringList notes;
    for (const LashLeftOut& left : left_out) {
        notes << Barring::tr("%1 is LEFT OUT: %2")
                     .arg(words::valve(left.valve), words::lash_refusal(left.reason));
    }
    return notes;
}

Result<BarringList> open_now(const Engine& engine, CrankAngle crank, double margin_deg) {
    const auto lashes = lash_standing(engine, crank, margin_deg);
    if (!lashes) {
        return lashes.error();
    }
    const std::vector<ValveStanding> standings = valves_at(engine, crank);
    BarringList list{
        {Barring::tr("Valve"), Barring::tr("Now"), Barring::tr("Lash may be set")}, {}, {}};
    std::vector<LashLeftOut> left_out;
    for (const LashStanding& lash : *lashes) {
        QString standing = Barring::tr("not in the set-up: may be open");
        for (const ValveStanding& each : standings) {
            if (each.position == lash.valve) {
                standing = standing_text(each);
            }
        }
        std::optional<CrankAngle> at;
        if (lash.turn_deg) {
            at = (crank + CrankAngle::deg(*lash.turn_deg)).in_cycle();
        } else if (lash.left_out) {
            left_out.push_back({lash.valve, *lash.left_out});
        }
        list.stops.push_back(
            {at, {words::valve(lash.valve), standing, lash_text(lash)}, lash.valve});
    }
    list.notes = left_out_notes(left_out);
    return list;
}

QStringList window_texts(const ShaftWindows& shaft, const ShaftWindow& window,
                         const EngineLayout& layout) {
    QString open = Barring::tr("open: %1").arg(words::valves(window.open));
    if (!window.may_be_open.empty()) {
        open += Barring::tr("; may be open: %1").arg(words::valves(window.may_be_open));
    }
    return {Barring::tr("%1 (%2)").arg(words::shaft(shaft.shaft, layout),
                                       words::valves(shaft.shaft.valves)),
            words::arc(window.arc),
            Barring::tr("%1; %2; %3")
                .arg(open, words::shaft_load(window), words::nearest_piston(window))};
}

Result<BarringList> loosen_shaft(const Engine& engine) {
    const auto shafts = shaft_windows(engine);
    if (!shafts) {
        return shafts.error();
    }
    constexpr std::size_t most_shown = 3;
    BarringList list{
        {Barring::tr("Shaft"), Barring::tr("Crank"), Barring::tr("Valves, load, pistons")}, {}, {}};
    for (const ShaftWindows& shaft : *shafts) {
        const std::size_t shown = std::min(most_shown, shaft.windows.size());
        for (std::size_t at = 0; at < shown; ++at) {
            const ShaftWindow& window = shaft.windows[at];
            list.stops.push_back({window.best, window_texts(shaft, window, engine.layout), {}});
        }
        if (shaft.windows.size() > shown) {
            list.notes << Barring::tr("%1: %2 lesser places aren't shown.")
                              .arg(words::shaft(shaft.shaft, engine.layout))
                              .arg(shaft.windows.size() - shown);
        }
        if (!shaft.shaft.perhaps.empty()) {
            list.notes << Barring::tr("%1: perhaps on it too, not in the set-up: %2")
                              .arg(words::shaft(shaft.shaft, engine.layout),
                                   words::valves(shaft.shaft.perhaps));
        }
    }
    if (shafts->empty()) {
        list.notes << Barring::tr("No rocker of this set-up sits on a shaft.");
    }
    list.notes << Barring::tr(
        "Best place of each shaft first. Bar the engine there before a bolt is touched, back the "
        "adjusters off, work all bolts down evenly in small steps, and leave the crank there while "
        "the shaft is loose. Loads are of an engine at rest; a valve held open by a hydraulic "
        "lifter sinks slowly while one waits.");
    return list;
}

Result<BarringList> walk_full_lifts(const Engine& engine, CrankAngle from) {
    const auto stops = full_lift_order(engine, from);
    if (!stops) {
        return stops.error();
    }
    BarringList list{{Barring::tr("At full lift")}, {}, {}};
    for (const FullLiftStop& stop : *stops) {
        list.stops.push_back({stop.at, {words::valves(stop.valves)}, first_of(stop.valves)});
    }
    return list;
}

Result<BarringList> walk_lash(const Engine& engine, CrankAngle from, double margin_deg) {
    LashWalkRules rules;
    rules.margin_deg = margin_deg;
    const auto walk = lash_walk(engine, from, rules);
    if (!walk) {
        return walk.error();
    }
    BarringList list{{Barring::tr("Seen"), Barring::tr("Set")}, {}, left_out_notes(walk->left_out)};
    for (const LashStep& step : walk->steps) {
        const QString seen = words::lash_cue(step);
        list.stops.push_back(
            {step.at,
             {step.seen_by_lobe ? Barring::tr("%1 (by the lobe alone)").arg(seen) : seen,
              words::valves(step.set)},
             first_of(step.set)});
    }
    list.notes << Barring::tr("A valve begins to open, or has all but closed, at %1 off its seat.")
                      .arg(words::inches(rules.seen_lift_mm));
    return list;
}

Result<BarringList> stop_for_lash(const Engine& engine, CrankAngle from, double margin_deg) {
    const auto found = fewest_lash_stops(engine, from, margin_deg);
    if (!found) {
        return found.error();
    }
    BarringList list{
        {Barring::tr("Set"), Barring::tr("May stand")}, {}, left_out_notes(found->left_out)};
    for (const LashStop& stop : found->stops) {
        const QString arc = words::arc(stop.may_stand);
        list.stops.push_back(
            {stop.at,
             {words::valves(stop.set),
              stop.firing_tdc_of
                  ? Barring::tr("cylinder %1 at firing TDC; %2").arg(*stop.firing_tdc_of).arg(arc)
                  : arc},
             first_of(stop.set)});
    }
    return list;
}

} // namespace

Result<BarringList> barring_list(BarringTask task, const Engine& engine, CrankAngle from,
                                 double margin_deg) {
    switch (task) {
        case BarringTask::open_now:
            return open_now(engine, from, margin_deg);
        case BarringTask::loosen_shaft:
            return loosen_shaft(engine);
        case BarringTask::full_lift_order:
            return walk_full_lifts(engine, from);
        case BarringTask::lash_walk:
            return walk_lash(engine, from, margin_deg);
        case BarringTask::lash_stops:
            return stop_for_lash(engine, from, margin_deg);
    }
    return BarringList{};
}

} // namespace rodway
