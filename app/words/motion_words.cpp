#include "app/words/motion_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/spring_words.h"
#include "app/words/stated_words.h"

namespace rodway::words {
namespace {

struct Motion {
    Q_DECLARE_TR_FUNCTIONS(Motion)
};

/// What several valves miss, each said once.
std::vector<std::string> missing_of(const std::vector<ValveInMotion>& valves, bool for_inertia) {
    std::vector<std::string> all;
    for (const ValveInMotion& valve : valves) {
        for (const std::string& path : for_inertia ? valve.missing_for_inertia : valve.missing) {
            if (std::find(all.begin(), all.end(), path) == all.end()) {
                all.push_back(path);
            }
        }
    }
    return all;
}

bool any_worked_out(const std::vector<ValveInMotion>& valves) {
    return std::any_of(valves.begin(), valves.end(), [](const ValveInMotion& valve) {
        return valve.status != RunningStatus::not_stated;
    });
}

} // namespace

QString motion(const std::vector<ValveInMotion>& valves, const RunningStated& stated) {
    QStringList said;
    const auto missing = missing_of(valves, false);
    if (any_worked_out(valves)) {
        const auto inertia = missing_of(valves, true);
        said << (inertia.empty()
                     ? Motion::tr("Spring and inertia at %1 rpm press on each rod while its valve "
                                  "is open, and its bow grows.")
                           .arg(QString::number(*stated.crank_rpm, 'f', 0))
                     : Motion::tr("The spring presses on each rod while its valve is open, and its "
                                  "bow grows. Inertia is left out, as at low speed, since nobody "
                                  "has stated: %1.")
                           .arg(stated_fields(inertia)));
        said << Motion::tr(
            "An estimate: ends pinned, everything else rigid, no surge of the "
            "springs; lift lost to bending isn't taken off. A short, stiff rod "
            "gives way below the load shown as critical.");
    }
    if (!missing.empty()) {
        said << Motion::tr("To be stated first: %1.").arg(stated_fields(missing));
    }
    return said.join(' ');
}

QString motion_of(const ValveInMotion& valve, const Engine& engine) {
    switch (valve.status) {
        case RunningStatus::not_stated:
            return Motion::tr("To be stated first: %1.").arg(stated_fields(valve.missing));
        case RunningStatus::no_train:
            return train_status(valve.train, std::nullopt, std::nullopt);
        case RunningStatus::buckles:
            return Motion::tr(
                       "The load reaches %1, the rod gives way at %2: there is no clearance "
                       "to speak of. A stiffer rod, or a weaker spring.")
                .arg(spring_load(*valve.greatest_N), spring_load(*valve.critical_N));
        case RunningStatus::lifts_off:
            return Motion::tr(
                "At this speed the spring can't hold the train together: it lifts "
                "off, and where the rod is then isn't worked out. A stronger spring, "
                "lighter parts, or less speed.");
        case RunningStatus::answered:
            break;
    }
    const RunningPlace* least = valve.least();
    if (least == nullptr) {
        return {};
    }
    const QString loaded =
        valve.greatest_N
            ? Motion::tr(
                  "Up to %1 along the rod, %2 of what it would give way at; its bow of %3 "
                  "at rest grows to %4.")
                  .arg(spring_load(*valve.greatest_N), load_share(valve), size(*valve.bow_rest_mm),
                       size(*valve.bow_most_mm))
            : Motion::tr("The valve never opens: nothing presses on the rod.");
    return Motion::tr("%1 Least left in the worst direction: %2 %3, %4, where the bow takes %5.")
        .arg(loaded, inches(least->left.clearance_mm), motion_at(*least),
             place(least->left, engine), size(least->bow_mm));
}

QString motion_at(const RunningPlace& place) {
    return place.at ? Motion::tr("at %1").arg(crank_degrees(place.at->in_deg()))
                    : Motion::tr("on the heel");
}

QString motion_verdict(const ValveInMotion& valve) {
    switch (valve.status) {
        case RunningStatus::not_stated:
            return Motion::tr("not stated");
        case RunningStatus::no_train:
            return Motion::tr("no answer");
        case RunningStatus::buckles:
            return Motion::tr("Gives way");
        case RunningStatus::lifts_off:
            return Motion::tr("Lifts off");
        case RunningStatus::answered:
            break;
    }
    return valve.verdict ? verdict(*valve.verdict) : Motion::tr("no answer");
}

QString load_share(const ValveInMotion& valve) {
    if (!valve.greatest_N || !valve.critical_N) {
        return Motion::tr("–");
    }
    return Motion::tr("%1 %").arg(
        QString::number(100.0 * *valve.greatest_N / *valve.critical_N, 'f', 0));
}

QString token(RunningStatus status) {
    switch (status) {
        case RunningStatus::answered:
            return "answered";
        case RunningStatus::not_stated:
            return "not_stated";
        case RunningStatus::no_train:
            return "no_train";
        case RunningStatus::buckles:
            return "buckles";
        case RunningStatus::lifts_off:
            return "lifts_off";
    }
    return {};
}

} // namespace rodway::words
