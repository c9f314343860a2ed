#include "app/words/gap_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <cmath>

#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"

namespace rodway::words {
namespace {

struct Gaps {
    Q_DECLARE_TR_FUNCTIONS(Gaps)
};

/// To the minute, unlike the half hours that are near enough for a wall's direction.
QString clock_direction(const std::optional<double>& hours) {
    if (!hours) {
        return Gaps::tr("tightest place");
    }
    const long minutes = std::lround(*hours * 60.0) % 720;
    const long hour = minutes < 60 ? 12 : minutes / 60;
    return minutes % 60 == 0
               ? Gaps::tr("%1 o'clock").arg(hour)
               : Gaps::tr("%1:%2 o'clock").arg(hour).arg(minutes % 60, 2, 10, QChar('0'));
}

QString fields_text(const std::vector<std::string>& fields) {
    QStringList names;
    for (const std::string& field : fields) {
        names << QString::fromStdString(field);
    }
    return names.join(", ");
}

} // namespace

QString turn_place(TurnPlace place, CrankAngle crank) {
    switch (place) {
        case TurnPlace::on_heel:
            return Gaps::tr("on the heel");
        case TurnPlace::at_full_lift:
            return Gaps::tr("at full lift");
        case TurnPlace::at_crank_angle:
            return Gaps::tr("at %1 of crank").arg(crank_degrees(crank.in_deg()));
    }
    return {};
}

QString gap_place(const GapReading& reading) {
    return Gaps::tr("%1, %2, %3")
        .arg(end(reading.end), clock_direction(reading.clock_hours),
             turn_place(reading.place, reading.crank));
}

QString gauge_place(const GaugePlace& place) {
    return Gaps::tr("%1, %2, %3")
        .arg(end(place.end), clock_direction(place.clock_hours), turn_place(place.place, {}));
}

QString gap_limits(const GapReading& reading) {
    if (reading.high_mm && *reading.high_mm == 0.0) {
        return Gaps::tr("touching");
    }
    if (!reading.high_mm) {
        return Gaps::tr("%1 or more").arg(size(reading.low_mm.value_or(0.0)));
    }
    return reading.low_mm ? Gaps::tr("%1 to %2").arg(size(*reading.low_mm), size(*reading.high_mm))
                          : Gaps::tr("under %1").arg(size(*reading.high_mm));
}

QString movement(const Vec2& moved_mm, const Engine& engine, const Train& train) {
    constexpr double shown_from_mm = 0.0127; // 0.001 in as rounded
    const double outboard_mm = moved_mm[1] * engine.outboard_y_sign(train);
    // Lying cylinders have no inside of a vee: say up and down as well.
    const bool flat = engine.layout.arrangement == Arrangement::flat;
    QStringList parts;
    if (std::abs(outboard_mm) >= shown_from_mm) {
        const QString in = flat ? Gaps::tr("%1 inboard (up)") : Gaps::tr("%1 inboard");
        const QString out = flat ? Gaps::tr("%1 outboard (down)") : Gaps::tr("%1 outboard");
        parts << (outboard_mm < 0.0 ? in : out).arg(inches(std::abs(outboard_mm)));
    }
    if (std::abs(moved_mm[0]) >= shown_from_mm) {
        parts << (moved_mm[0] > 0.0 ? Gaps::tr("%1 to the front") : Gaps::tr("%1 to the rear"))
                     .arg(inches(std::abs(moved_mm[0])));
    }
    return parts.isEmpty() ? Gaps::tr("not moved") : parts.join(", ");
}

QString standing(const KeptGap& kept) {
    switch (kept.standing) {
        case GapStanding::holds:
            return Gaps::tr("holds");
        case GapStanding::taken_again:
            return Gaps::tr("taken again: reading %1 counts").arg(kept.taken_again_in.value_or(0));
        case GapStanding::stale:
            return Gaps::tr("stale, since these have changed: %1")
                .arg(fields_text(kept.stale_fields));
        case GapStanding::set_up_not_known:
            return Gaps::tr("nobody knows in which set-up it was taken");
        case GapStanding::not_readable:
            return kept.error ? Gaps::tr("can't be read: %1").arg(error_text(*kept.error))
                              : Gaps::tr("can't be read");
    }
    return {};
}

QString fit_outcome(const ReadingFit& fit) {
    switch (fit.outcome) {
        case FitOutcome::fitted:
            return Gaps::tr("One place fits the readings.");
        case FitOutcome::several_fit:
            return fit.told_apart_by_readings
                       ? Gaps::tr("%1 places fit; the readings speak clearly for the first.")
                             .arg(fit.poses.size())
                       : Gaps::tr("%1 places fit: these gaps alone don't tell them apart.")
                             .arg(fit.poses.size());
        case FitOutcome::against_stated_place:
            return Gaps::tr(
                "The readings agree with one another, but not with where the set-up puts the "
                "passage: it would have to stand farther off than was stated.");
        case FitOutcome::contradicting:
            return Gaps::tr("No place fits all the readings.");
        case FitOutcome::no_readings:
            return Gaps::tr(
                "No reading counts: what the set-up says of the passage's place "
                "stands, as well as it was stated.");
        case FitOutcome::train_has_no_answer:
            return train_status(fit.train, {}, {});
    }
    return {};
}

QString token(TurnPlace place) {
    switch (place) {
        case TurnPlace::on_heel:
            return "heel";
        case TurnPlace::at_full_lift:
            return "full_lift";
        case TurnPlace::at_crank_angle:
            return "crank_angle";
    }
    return {};
}

QString token(GapStanding standing) {
    switch (standing) {
        case GapStanding::holds:
            return "holds";
        case GapStanding::taken_again:
            return "taken_again";
        case GapStanding::stale:
            return "stale";
        case GapStanding::set_up_not_known:
            return "set_up_not_known";
        case GapStanding::not_readable:
            return "not_readable";
    }
    return {};
}

QString token(FitOutcome outcome) {
    switch (outcome) {
        case FitOutcome::fitted:
            return "fitted";
        case FitOutcome::several_fit:
            return "several_fit";
        case FitOutcome::against_stated_place:
            return "against_stated_place";
        case FitOutcome::contradicting:
            return "contradicting";
        case FitOutcome::no_readings:
            return "no_readings";
        case FitOutcome::train_has_no_answer:
            return "train_has_no_answer";
    }
    return {};
}

} // namespace rodway::words
