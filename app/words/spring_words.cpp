#include "app/words/spring_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <cmath>

#include "app/words/lengths.h"
#include "core/units/force.h"

namespace rodway::words {
namespace {

struct SpringWords {
    Q_DECLARE_TR_FUNCTIONS(SpringWords)
};

/// A whole number, and nothing below zero that reads 0.
QString whole(double value) {
    const double rounded = std::round(value);
    return QString::number(rounded == 0.0 ? 0.0 : rounded, 'f', 0);
}

/// A typed load: to a tenth where it isn't whole, since a band may be given in newtons.
QString typed_lbf(double load_N) {
    const double tenths = std::round(Force::N(load_N).in_lbf() * 10.0) / 10.0;
    return QString::number(tenths, 'f', tenths == std::round(tenths) ? 0 : 1);
}

QString not_in_band(const ShimChoice& choice, const ShimAim& aim, double bare_seat_load_N) {
    const double bare_height_mm = choice.installed_height_mm + choice.stack_mm;
    const bool beyond =
        aim.of == ShimAim::Of::seat_load ? bare_seat_load_N > aim.high : bare_height_mm < aim.low;
    if (beyond) {
        return SpringWords::tr(
            "stands beyond the band without any shim: a shim only tightens it more");
    }
    return SpringWords::tr("NOT IN THE BAND: the nearest that the stock makes");
}

} // namespace

QString spring_load(double load_N) {
    return SpringWords::tr("%1 lbf").arg(whole(Force::N(load_N).in_lbf()));
}

QString spring_rate(double rate_N_per_mm) {
    return SpringWords::tr("%1 lbf/in").arg(whole(spring_rate_lbf_per_inch(rate_N_per_mm)));
}

QString shim_aim(const ShimAim& aim) {
    if (aim.of == ShimAim::Of::seat_load) {
        return SpringWords::tr("%1 to %2 lbf on the seat")
            .arg(typed_lbf(aim.low), typed_lbf(aim.high));
    }
    return SpringWords::tr("%1 to %2 installed").arg(size(aim.low), size(aim.high));
}

QString shims(const std::vector<double>& shims_mm) {
    QStringList thicknesses;
    for (const double shim_mm : shims_mm) {
        thicknesses << size(shim_mm);
    }
    return thicknesses.isEmpty() ? SpringWords::tr("no shim") : thicknesses.join(" + ");
}

QString spring_status(SpringStatus status, TrainStatus train) {
    switch (status) {
        case SpringStatus::answered:
            return SpringWords::tr("answered");
        case SpringStatus::no_train:
            return SpringWords::tr(
                "The set-up has no train for this valve, so neither its spring nor its lift is "
                "known.");
        case SpringStatus::no_spring:
            return SpringWords::tr(
                "No spring of this valve is in the set-up: fill in its installed height and loads "
                "(springs).");
        case SpringStatus::train_does_not_close:
            return SpringWords::tr("Its lift isn't known. %1")
                .arg(train_status(train, std::nullopt, std::nullopt));
    }
    return {};
}

QString shim_status(const ShimChoice& choice, const ShimAim& aim, double bare_seat_load_N,
                    double least_to_bind_mm) {
    switch (choice.status) {
        case ShimStatus::in_band:
            return {};
        case ShimStatus::not_in_band:
            return not_in_band(choice, aim, bare_seat_load_N);
        case ShimStatus::held_by_bind:
            return SpringWords::tr(
                       "NOT IN THE BAND: more shim would leave less than %1 before the coils touch")
                .arg(inches(least_to_bind_mm));
        case ShimStatus::binds_bare:
            return choice.bind_checked
                       ? SpringWords::tr(
                             "TOO CLOSE TO COIL BIND without any shim, less than %1 is left: none "
                             "is chosen")
                             .arg(inches(least_to_bind_mm))
                       : SpringWords::tr(
                             "the valve lifts by as much as the spring is high: check height and "
                             "lift");
    }
    return {};
}

QString load_or_unknown(const std::optional<double>& load_N) {
    return load_N ? spring_load(*load_N) : SpringWords::tr("unknown");
}

QString room_left(const std::optional<double>& left_mm) {
    return left_mm ? inches(*left_mm) : SpringWords::tr("unknown");
}

// The rule: Shigley's Mechanical Engineering Design, section 10-8 (from memory).
QString surge_estimated() {
    return SpringWords::tr(
        "Estimated from the outer spring's wire, taken as chrome-silicon steel and wound evenly. "
        "A textbook's rule is 15 to 20 times the speed of what drives a spring, or more.");
}

QString spring_caution() {
    return SpringWords::tr(
        "Loads lie on straight lines between those listed; lift is that of a train that doesn't "
        "bend. Check each spring on a tester at its installed height, and coil bind and retainer "
        "on the engine. The makers' figures come first.");
}

QString shaft_load_caution() {
    return SpringWords::tr(
        "Loads are of an engine at rest: no friction, no weight, nothing moving. A shut valve's "
        "spring rests on its seat, not on the shaft; an open one presses on it with its spring and "
        "with its rod. A valve held open by a hydraulic lifter sinks slowly while one waits.");
}

QString token(SpringStatus status) {
    switch (status) {
        case SpringStatus::answered:
            return "answered";
        case SpringStatus::no_train:
            return "no_train";
        case SpringStatus::no_spring:
            return "no_spring";
        case SpringStatus::train_does_not_close:
            return "train_does_not_close";
    }
    return {};
}

QString token(ShimStatus status) {
    switch (status) {
        case ShimStatus::in_band:
            return "in_band";
        case ShimStatus::not_in_band:
            return "not_in_band";
        case ShimStatus::held_by_bind:
            return "held_by_bind";
        case ShimStatus::binds_bare:
            return "binds_bare";
    }
    return {};
}

QString token(ShimAim::Of of) {
    return of == ShimAim::Of::seat_load ? "seat_load" : "installed_height";
}

} // namespace rodway::words
