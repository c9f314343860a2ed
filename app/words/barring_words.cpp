#include "app/words/barring_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <cmath>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/units/force.h"

namespace rodway::words {
namespace {

struct Barring {
    Q_DECLARE_TR_FUNCTIONS(Barring)
};

} // namespace

QString valves(const std::vector<ValvePosition>& valves) {
    QStringList names;
    for (const ValvePosition& position : valves) {
        names << valve(position);
    }
    return names.isEmpty() ? Barring::tr("none") : names.join(", ");
}

QString arc(const CrankArc& arc) {
    constexpr double shown_deg = 0.05; // half of the last digit of crank_degrees
    if (arc.span_deg >= 720.0) {
        return Barring::tr("anywhere");
    }
    if (arc.span_deg < shown_deg) {
        return crank_degrees(arc.from.in_deg());
    }
    return Barring::tr("%1 to %2")
        .arg(crank_degrees(arc.from.in_deg()), crank_degrees(arc.to().in_deg()));
}

QString lash_refusal(LashRefusal reason) {
    switch (reason) {
        case LashRefusal::lobe_estimated:
            return Barring::tr(
                "a lobe here is made from card numbers, so nobody knows where its ramps end: "
                "measure its lift, or set this valve by the maker's instructions.");
        case LashRefusal::heel_too_short:
            return Barring::tr("its lobe's heel is too short for the margin at both ends.");
        case LashRefusal::not_on_heel:
            return Barring::tr(
                "when the other valve gives its cue, this lobe isn't on its heel with the margin: "
                "set it at a stop of lash-stops.");
        case LashRefusal::cue_not_seen:
            return Barring::tr(
                "the other valve never lifts far enough to be seen: set it at a stop of "
                "lash-stops.");
    }
    return {};
}

QString lash_cue(const LashStep& step) {
    const QString seen = valve(step.seen);
    switch (step.cue) {
        case LashCue::exhaust_begins_to_open:
            return Barring::tr("%1 begins to open").arg(seen);
        case LashCue::intake_all_but_closed:
            return Barring::tr("%1 has all but closed").arg(seen);
    }
    return {};
}

QString shaft(const RockerShaft& shaft, const EngineLayout& layout) {
    const QString bank = QString::fromStdString(layout.banks[shaft.bank].name);
    return shaft.name.empty() ? Barring::tr("Bank “%1”, rocker shaft").arg(bank)
                              : Barring::tr("Bank “%1”, rocker shaft “%2”")
                                    .arg(bank, QString::fromStdString(shaft.name));
}

QString shaft_load(const ShaftWindow& window) {
    if (window.load_at_best_N) {
        const double lbf = std::round(Force::N(*window.load_at_best_N).in_lbf());
        return Barring::tr("%1 lbf").arg(QString::number(lbf, 'f', 0));
    }
    return window.may_be_open.empty() ? Barring::tr("unknown: no springs in the set-up")
                                      : Barring::tr("unknown: a valve may be open");
}

QString nearest_piston(const ShaftWindow& window) {
    if (!window.nearest) {
        return Barring::tr("pistons unknown");
    }
    const QString nearest = Barring::tr("piston %1 nearest to top dead centre, %2 from it")
                                .arg(window.nearest->cylinder)
                                .arg(crank_degrees(window.nearest->from_tdc_deg));
    return window.pistons_clear ? nearest
                                : Barring::tr("%1: NOT OUT OF THE WAY of a valve").arg(nearest);
}

QString token(LashRefusal reason) {
    switch (reason) {
        case LashRefusal::lobe_estimated:
            return "lobe_estimated";
        case LashRefusal::heel_too_short:
            return "heel_too_short";
        case LashRefusal::not_on_heel:
            return "not_on_heel";
        case LashRefusal::cue_not_seen:
            return "cue_not_seen";
    }
    return {};
}

QString token(LashCue cue) {
    switch (cue) {
        case LashCue::exhaust_begins_to_open:
            return "exhaust_begins_to_open";
        case LashCue::intake_all_but_closed:
            return "intake_all_but_closed";
    }
    return {};
}

QString token(Turning turning) {
    return turning == Turning::clockwise ? "clockwise" : "counter_clockwise";
}

} // namespace rodway::words
