#include "app/command_line/fit_text.h"

#include <QCoreApplication>
#include <cmath>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"

namespace rodway {
namespace {

struct FitText {
    Q_DECLARE_TR_FUNCTIONS(FitText)
};

const KeptGap* used_reading(const FitAnswer& answer, const std::string& name) {
    for (const KeptGap& kept : answer.used) {
        if (kept.gap->name == name) {
            return &kept;
        }
    }
    return nullptr;
}

void print_lines(const QStringList& lines) {
    for (const QString& line : lines) {
        print(line);
    }
}

/// "reading 4 (rocker end, 3 o'clock, at full lift: .008-.010)".
QString reading_named(const KeptGap& kept) {
    return FitText::tr("reading %1 (%2: %3)")
        .arg(QString::number(kept.reading.id),
             kept.gap ? words::gap_place(*kept.gap) : QString::fromStdString(kept.reading.position),
             QString::fromStdString(kept.reading.text));
}

void print_readings(const FitAnswer& answer) {
    for (const KeptGap& kept : answer.used) {
        print(kept.reading.set_up_id == answer.request.set_up_id
                  ? FitText::tr("   %1").arg(reading_named(kept))
                  : FitText::tr("   %1, taken in an earlier set-up: nothing that acts on it "
                                "has changed since")
                        .arg(reading_named(kept)));
    }
    for (const KeptGap& kept : answer.left_out) {
        const QString why = kept.standing == GapStanding::holds ? FitText::tr("another passage")
                                                                : words::standing(kept);
        print(FitText::tr("   left out: %1: %2").arg(reading_named(kept), why));
    }
}

/// A pose's clearance with its doubt, and what that comes to.
QString minimum_text(const FitAnswer& answer, const FittedPose& pose) {
    const CertifiedMinimum& found = pose.minimum.found;
    if (!found.minimum) {
        return words::train_status(found.status, found.status_at_mm, {});
    }
    const QString least = words::inches(found.minimum->clearance_mm);
    const QString place =
        pose.minimum.doubt_mm
            ? FitText::tr("the place ± %1").arg(words::inches(*pose.minimum.doubt_mm))
            : FitText::tr("the place's doubt not known");
    const RestOfEngine rest = rest_of_engine(answer, pose);
    const QString engine =
        !rest.doubt_mm ? FitText::tr("the rest of the engine's doubt not stated")
        : rest.worked_out
            ? FitText::tr("the rest of the engine ± %1").arg(words::inches(*rest.doubt_mm))
            : FitText::tr("the rest of the engine ± %1, assumed")
                  .arg(words::inches(*rest.doubt_mm));
    const auto whole = whole_doubt_mm(answer, pose);
    return whole ? FitText::tr("%1 ± %2 (%3; %4)").arg(least, words::inches(*whole), place, engine)
                 : FitText::tr("%1 (%2; %3)").arg(least, place, engine);
}

} // namespace

QStringList pose_lines(const FitAnswer& answer, const FittedPose& pose, const QString& name,
                       bool fits) {
    QStringList lines;
    const auto moved_text = [&](const Vec2& moved_mm) {
        return words::movement(moved_mm, answer.hand.engine, answer.train());
    };
    const MouthsMoved moved = mouths_moved(pose.pose, answer.passage().bore);
    lines.append(FitText::tr("%1: rocker end %2; lifter end %3; from where the set-up puts them.")
                     .arg(name, moved_text(moved.top_mm), moved_text(moved.bottom_mm)));
    const auto verdict = fits ? verdict_of(answer, pose) : std::nullopt;
    lines.append(
        verdict
            ? FitText::tr("   Least clearance over the turn: %1. %2.")
                  .arg(minimum_text(answer, pose), words::verdict(*verdict))
            : FitText::tr("   Least clearance over the turn: %1").arg(minimum_text(answer, pose)));
    if (const auto felt = fits ? felt_at_most_mm(answer) : std::nullopt) {
        lines.append(FitText::tr("   By the tightest gap felt it is no more than %1.")
                         .arg(words::inches(*felt)));
    }
    for (const GapAtPose& gap : pose.gaps) {
        if (std::abs(gap.outside_mm) < 0.00127) { // a twentieth of a thou
            continue;
        }
        lines.append((gap.outside_mm > 0.0
                          ? FitText::tr("   Its gap at reading %1 is %2: %3 more than was felt.")
                          : FitText::tr("   Its gap at reading %1 is %2: %3 less than was felt."))
                         .arg(QString::fromStdString(gap.name), words::size(gap.gap_mm),
                              words::size(std::abs(gap.outside_mm))));
    }
    if (pose.one_of_a_line) {
        lines.append(
            FitText::tr("   Places all along a line through it fit as well; its ± takes them in."));
    }
    for (const WeakMovement& weak : pose.weak) {
        lines.append(FitText::tr("   Hardly known from these readings: the rocker end %1 with the "
                                 "lifter end %2, or both the other way: so far off is nothing "
                                 "unusual.")
                         .arg(moved_text(weak.top_mm), moved_text(weak.bottom_mm)));
    }
    return lines;
}

QStringList next_lines(const FitAnswer& answer) {
    QStringList lines;
    const ReadingFit& fit = answer.fit;
    if (fit.deciding) {
        QStringList expected;
        for (std::size_t at = 0; at < fit.deciding->expected_mm.size(); ++at) {
            expected << FitText::tr("%1 by place %2")
                            .arg(words::inches(fit.deciding->expected_mm[at]))
                            .arg(at + 1);
        }
        lines.append(FitText::tr("Next: try a gauge at the %1: %2.")
                         .arg(words::gauge_place(fit.deciding->at), expected.join(", ")));
        lines.append(fit.deciding->decides
                         ? FitText::tr("   Whatever is felt there leaves one place.")
                         : FitText::tr("   It may not decide by itself, but no other one reading "
                                       "tells them apart better."));
    } else if (fit.poses.size() > 1 && !fit.told_apart_by_readings) {
        lines.append(FitText::tr("No one more gap would tell these places apart."));
    }
    if (fit.helpful) {
        lines.append(
            FitText::tr("Next, if it is to be known better: try a gauge at the %1: about %2. "
                        "It would bring the place's ± down to %3.")
                .arg(words::gauge_place(fit.helpful->at), words::inches(fit.helpful->expected_mm),
                     words::inches(fit.helpful->doubt_after_mm)));
    }
    return lines;
}

QStringList disagreeing_lines(const FitAnswer& answer) {
    QStringList lines;
    for (const DisagreeingReading& reading : answer.fit.disagreeing) {
        const KeptGap* kept = used_reading(answer, reading.name);
        const QString doubt =
            reading.expected_u_mm
                ? FitText::tr(" ± %1").arg(words::inches(two_sided_95 * *reading.expected_u_mm))
                : QString();
        const QString off = words::inches(std::abs(reading.off_mm));
        lines.append(
            (reading.rest_agrees
                 ? FitText::tr("   Disagrees: %1. By all the others the gap there is %2%3: %4.")
                 : FitText::tr("   Misses: %1. By the nearest place the gap there is %2%3: %4."))
                .arg(kept ? reading_named(*kept) : QString::fromStdString(reading.name),
                     words::inches(reading.expected_mm), doubt,
                     reading.off_mm > 0.0 ? FitText::tr("%1 more than was felt").arg(off)
                                          : FitText::tr("%1 less than was felt").arg(off)));
    }
    return lines;
}

void print_fit(const FitAnswer& answer) {
    const ReadingFit& fit = answer.fit;
    const StatedPlace& stated = answer.request.stated;
    print_head(answer.hand);
    print(FitText::tr("%1, %2: readings that count: %3. The set-up's place is taken as ± %4 "
                      "sideways and ± %5 of lean.")
              .arg(words::valve(answer.request.valve),
                   QString::fromStdString(answer.request.passage),
                   QString::number(answer.used.size()),
                   words::inches(two_sided_95 * stated.sideways_u_mm),
                   words::crank_degrees(degrees(two_sided_95 * stated.lean_u_rad))));
    print_readings(answer);
    print({});
    print(words::fit_outcome(fit));
    for (std::size_t at = 0; at < fit.poses.size(); ++at) {
        print_lines(pose_lines(answer, fit.poses[at], FitText::tr("Place %1").arg(at + 1), true));
    }
    if (fit.nearest) {
        print_lines(pose_lines(answer, *fit.nearest, FitText::tr("Nearest"), false));
    }
    print_lines(disagreeing_lines(answer));
    print_lines(next_lines(answer));
}

void print_kept(const FitAnswer& answer) {
    print({});
    print(FitText::tr("Place 1 is kept: “%1” is now the set-up in hand; the ones before are "
                      "kept. The readings it was fitted to have had their say and count as "
                      "stale from now on; fit again with new ones, and say how well the place "
                      "is known now (--stated-sideways, --stated-lean).")
              .arg(*answer.kept_as));
    if (answer.fit.outcome == FitOutcome::several_fit && !answer.fit.told_apart_by_readings) {
        print(
            FitText::tr("It is not the only place that fits: nothing that was felt speaks "
                        "against the others."));
    }
}

} // namespace rodway
