#include "app/words/train_words.h"

#include <QCoreApplication>

#include "app/words/lengths.h"

namespace rodway::words {
namespace {

struct TrainWords {
    Q_DECLARE_TR_FUNCTIONS(TrainWords)
};

QString out_of_thread(std::optional<double> needed_mm) {
    if (!needed_mm) {
        return TrainWords::tr("No turn of the nut makes this rod fit. Check its length.");
    }
    return *needed_mm > 0.0 ? TrainWords::tr(
                                  "The rod is too short: the adjuster would have to go in by %1, "
                                  "more than its thread. Fit a longer rod or a taller lifter.")
                                  .arg(inches(*needed_mm))
                            : TrainWords::tr(
                                  "The rod is too long: the adjuster would have to come out by %1, "
                                  "more than its thread. Fit a shorter rod.")
                                  .arg(inches(-*needed_mm));
}

QString out_of_travel(double deep_mm) {
    return deep_mm < 0.0 ? TrainWords::tr(
                               "The rod is too short: it leaves a gap of %1 above the lifter's "
                               "plunger at its stop. Fit a longer rod.")
                               .arg(inches(-deep_mm))
                         : TrainWords::tr(
                               "The rod is too long: it would push the lifter's plunger down by "
                               "%1, more than its travel, and hold the valve open. Fit a shorter "
                               "rod.")
                               .arg(inches(deep_mm));
}

QString where(std::optional<double> lobe_lift_mm) {
    return lobe_lift_mm && *lobe_lift_mm > 0.0
               ? TrainWords::tr(" (from a lobe lift of %1)").arg(inches(*lobe_lift_mm))
               : QString();
}

} // namespace

QString train_status(TrainStatus status, std::optional<double> lobe_lift_mm,
                     std::optional<double> adjuster_needed_mm) {
    switch (status) {
        case TrainStatus::answered:
            return TrainWords::tr("answered");
        case TrainStatus::rod_too_short:
            return TrainWords::tr(
                       "The rod is too short to join lifter and rocker%1. Check the "
                       "rod's length and the lifter's height.")
                .arg(where(lobe_lift_mm));
        case TrainStatus::rod_too_long:
            return TrainWords::tr(
                       "The rod is too long to stand between lifter and rocker%1. Check "
                       "the rod's length.")
                .arg(where(lobe_lift_mm));
        case TrainStatus::arm_too_short:
            return TrainWords::tr("Rocker or lifter stands within 1 mm of the shaft's axis%1.")
                .arg(where(lobe_lift_mm));
        case TrainStatus::near_dead_point:
            return TrainWords::tr(
                       "Rod and rocker arm come into one line at a lobe lift of %1: the train "
                       "locks.")
                .arg(inches(lobe_lift_mm.value_or(0.0)));
        case TrainStatus::adjuster_out_of_thread:
            return out_of_thread(adjuster_needed_mm);
        case TrainStatus::plunger_out_of_travel:
            return out_of_travel(adjuster_needed_mm.value_or(0.0));
        case TrainStatus::does_not_go_through:
            return TrainWords::tr(
                       "The rod's axis doesn't pass through the tube (at a lobe lift of "
                       "%1). Check the tube's place and axis.")
                .arg(inches(lobe_lift_mm.value_or(0.0)));
        case TrainStatus::outside_domain:
            return TrainWords::tr("A size or place of this train is not one an engine can have.");
    }
    return {};
}

QString token(TrainStatus status) {
    switch (status) {
        case TrainStatus::answered:
            return "answered";
        case TrainStatus::rod_too_short:
            return "rod_too_short";
        case TrainStatus::rod_too_long:
            return "rod_too_long";
        case TrainStatus::arm_too_short:
            return "arm_too_short";
        case TrainStatus::near_dead_point:
            return "near_dead_point";
        case TrainStatus::adjuster_out_of_thread:
            return "adjuster_out_of_thread";
        case TrainStatus::plunger_out_of_travel:
            return "plunger_out_of_travel";
        case TrainStatus::does_not_go_through:
            return "does_not_go_through";
        case TrainStatus::outside_domain:
            return "outside_domain";
    }
    return {};
}

} // namespace rodway::words
