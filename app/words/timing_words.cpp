#include "app/words/timing_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <cmath>

#include "app/words/lengths.h"
#include "app/words/train_words.h"

namespace rodway::words {
namespace {

struct TimingWords {
    Q_DECLARE_TR_FUNCTIONS(TimingWords)
};

/// As `crank_degrees` shows it: to a tenth, and nothing is below zero that reads 0.
double shown(double deg) {
    const double rounded = std::round(deg * 10.0) / 10.0;
    return rounded == 0.0 ? 0.0 : rounded;
}

QString size_of(double deg) {
    return crank_degrees(std::abs(shown(deg)));
}

QString common_shift(const DegreeingFindings& findings) {
    const double shift = findings.common_advanced_crank_deg;
    const QString turn = shift > 0.0 ? TimingWords::tr("Retard") : TimingWords::tr("Advance");
    return TimingWords::tr(
               "The whole cam stands %1: look at keyway, chain and sprockets, or the cam on its "
               "drive. %2 it by %3 of crank (%4 at the camshaft) to put it right.")
        .arg(advance(shift), turn, size_of(shift), size_of(shift / 2.0));
}

QString separation_off(const DegreeingFindings& findings) {
    const double error = findings.lobe_separation_error_cam_deg.value_or(0.0);
    const QString way = error > 0.0 ? TimingWords::tr("wider") : TimingWords::tr("narrower");
    return TimingWords::
        tr("Lobe separation is %1 %2 than in the set-up: the cam is ground so, or it is another "
           "cam. Turning it can't mend that.")
            .arg(cam_degrees(std::abs(error)), way);
}

QString single_valves(const DegreeingFindings& findings) {
    QStringList apart;
    for (const ValveDeparture& valve : findings.valves) {
        if (valve.off) {
            apart << TimingWords::tr("%1 (%2)").arg(
                QString::fromStdString(position_name(valve.valve)), advance(valve.own_crank_deg));
        }
    }
    return TimingWords::tr(
               "Apart from the rest: %1. Measure these again, then look at the lifter bore and the "
               "lobe.")
        .arg(apart.join(", "));
}

QString not_bracketed(const PistonToValve& clearance) {
    QString wanted;
    if (clearance.drop_wanted_before && clearance.drop_wanted_after) {
        wanted = TimingWords::tr("take a drop before the first and another after the last");
    } else if (clearance.drop_wanted_before) {
        wanted = TimingWords::tr("take another drop, before the first");
    } else {
        wanted = TimingWords::tr("take another drop, after the last");
    }
    return TimingWords::
        tr("The least isn't found: clearance is smallest at the edge of the drops, %1 at %2, and "
           "may be less beyond it; %3.")
            .arg(inches(clearance.at_most_mm.value_or(0.0)),
                 about_overlap(clearance.after_overlap.value_or(CrankAngle())), wanted);
}

} // namespace

QString cam_event(CamEvent event, double crank_deg) {
    const bool as_usual = shown(crank_deg) >= 0.0;
    const QString degrees = size_of(crank_deg);
    switch (event) {
        case CamEvent::intake_opens:
            return as_usual ? TimingWords::tr("%1 BTDC").arg(degrees)
                            : TimingWords::tr("%1 ATDC").arg(degrees);
        case CamEvent::intake_closes:
            return as_usual ? TimingWords::tr("%1 ABDC").arg(degrees)
                            : TimingWords::tr("%1 BBDC").arg(degrees);
        case CamEvent::exhaust_opens:
            return as_usual ? TimingWords::tr("%1 BBDC").arg(degrees)
                            : TimingWords::tr("%1 ABDC").arg(degrees);
        case CamEvent::exhaust_closes:
            return as_usual ? TimingWords::tr("%1 ATDC").arg(degrees)
                            : TimingWords::tr("%1 BTDC").arg(degrees);
    }
    return {};
}

QString advance(double crank_deg) {
    if (shown(crank_deg) == 0.0) {
        return TimingWords::tr("straight up");
    }
    return crank_deg > 0.0 ? TimingWords::tr("%1 advanced").arg(size_of(crank_deg))
                           : TimingWords::tr("%1 retarded").arg(size_of(crank_deg));
}

QString overlap(double crank_deg) {
    return shown(crank_deg) >= 0.0
               ? size_of(crank_deg)
               : TimingWords::tr("none: %1 lie between exhaust closing and intake opening")
                     .arg(size_of(crank_deg));
}

QString cam_degrees(double cam_deg) {
    return TimingWords::tr("%1 of cam").arg(crank_degrees(shown(cam_deg)));
}

QString about_overlap(CrankAngle after_overlap) {
    const QString degrees = size_of(after_overlap.in_deg());
    return shown(after_overlap.in_deg()) < 0.0
               ? TimingWords::tr("%1 before overlap TDC").arg(degrees)
               : TimingWords::tr("%1 after overlap TDC").arg(degrees);
}

QString timing_status(const ValveTiming& timing) {
    const bool of_lobe = timing.checking.of == LiftOf::lobe;
    switch (timing.status) {
        case TimingStatus::answered:
            return TimingWords::tr("answered");
        case TimingStatus::lift_not_reached:
            return of_lobe ? TimingWords::tr("The lobe never stands so high.")
                           : TimingWords::tr("The valve never opens so far.");
        case TimingStatus::on_the_heel:
            return TimingWords::tr("So low a lift is on the heel: no angle belongs to it.");
        case TimingStatus::no_train:
            return TimingWords::tr(
                "The set-up has no train for this valve, so its lift isn't known.");
        case TimingStatus::train_does_not_close:
            return train_status(timing.train, std::nullopt, std::nullopt);
    }
    return {};
}

QString piston_status(const PistonToValve& clearance) {
    switch (clearance.status) {
        case PistonToValveStatus::answered:
            return TimingWords::tr("answered");
        case PistonToValveStatus::not_bracketed:
            return not_bracketed(clearance);
        case PistonToValveStatus::no_drops:
            return TimingWords::tr("No drops of this valve are in the set-up (piston_to_valve).");
        case PistonToValveStatus::rod_unknown:
            return TimingWords::tr(
                "The connecting rod's length isn't in the set-up: fill in engine/connecting_rod.");
        case PistonToValveStatus::no_train:
            return TimingWords::tr(
                "The set-up has no train for this valve, so its lift isn't known.");
        case PistonToValveStatus::estimated_lobe:
            return TimingWords::tr(
                "Its lobe was made from card numbers, which is no ground for piston to valve: "
                "measure the lobe.");
        case PistonToValveStatus::lift_unknown:
            return TimingWords::tr(
                "Its train doesn't close at a lift on the way: see what `clearance` says of it.");
    }
    return {};
}

QString finding(DegreeingFinding finding, const DegreeingFindings& findings) {
    switch (finding) {
        case DegreeingFinding::within_tolerance:
            return TimingWords::tr(
                       "Nothing is off by more than %1: the cam stands as in the set-up.")
                .arg(crank_degrees(findings.tolerance_crank_deg));
        case DegreeingFinding::common_shift:
            return common_shift(findings);
        case DegreeingFinding::lobe_separation_off:
            return separation_off(findings);
        case DegreeingFinding::single_valve_off:
            return single_valves(findings);
        case DegreeingFinding::cannot_tell:
            return TimingWords::tr(
                "Something is off, but these valves don't tell what: measure both valves of more "
                "cylinders, two at least.");
    }
    return {};
}

QString estimated_lobe() {
    return TimingWords::tr("estimated: the lobe was made from card numbers");
}

QString degreeing_caution() {
    return TimingWords::tr(
        "Always approach a mark in the engine's running direction; if you overshoot, go back well "
        "before it and come up again, so that the chain's slack stays on one side. Only for the "
        "positive stop is the crank turned both ways, by hand.");
}

QString piston_caution() {
    return TimingWords::tr(
        "The limits are common practice; the maker's figures come first. Computed from the drops "
        "as "
        "typed, lash as set: check on the engine with clay or a dial, as it will run, and again "
        "after any change of cam, its timing, rocker, gasket or piston.");
}

QString token(TimingStatus status) {
    switch (status) {
        case TimingStatus::answered:
            return "answered";
        case TimingStatus::lift_not_reached:
            return "lift_not_reached";
        case TimingStatus::on_the_heel:
            return "on_the_heel";
        case TimingStatus::no_train:
            return "no_train";
        case TimingStatus::train_does_not_close:
            return "train_does_not_close";
    }
    return {};
}

QString token(PistonToValveStatus status) {
    switch (status) {
        case PistonToValveStatus::answered:
            return "answered";
        case PistonToValveStatus::not_bracketed:
            return "not_bracketed";
        case PistonToValveStatus::no_drops:
            return "no_drops";
        case PistonToValveStatus::rod_unknown:
            return "rod_unknown";
        case PistonToValveStatus::no_train:
            return "no_train";
        case PistonToValveStatus::estimated_lobe:
            return "estimated_lobe";
        case PistonToValveStatus::lift_unknown:
            return "lift_unknown";
    }
    return {};
}

QString token(DegreeingFinding finding) {
    switch (finding) {
        case DegreeingFinding::within_tolerance:
            return "within_tolerance";
        case DegreeingFinding::common_shift:
            return "common_shift";
        case DegreeingFinding::lobe_separation_off:
            return "lobe_separation_off";
        case DegreeingFinding::single_valve_off:
            return "single_valve_off";
        case DegreeingFinding::cannot_tell:
            return "cannot_tell";
    }
    return {};
}

} // namespace rodway::words
