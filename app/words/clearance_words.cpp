#include "app/words/clearance_words.h"

#include <QCoreApplication>
#include <cmath>

#include "app/words/lengths.h"
#include "app/words/train_words.h"

namespace rodway::words {
namespace {

struct Clearance {
    Q_DECLARE_TR_FUNCTIONS(Clearance)
};

} // namespace

QString verdict(Verdict verdict) {
    switch (verdict) {
        case Verdict::passed:
            return Clearance::tr("Pass");
        case Verdict::passed_little_room:
            return Clearance::tr("Pass, little room");
        case Verdict::passed_for_now:
            return Clearance::tr("Pass, below mock-up");
        case Verdict::too_close_to_call:
            return Clearance::tr("Too close to call");
        case Verdict::failed:
            return Clearance::tr("Fail");
        case Verdict::contact:
            return Clearance::tr("Contact");
        case Verdict::no_doubt_given:
            return Clearance::tr("No verdict");
    }
    return {};
}

QString no_doubt(const Engine& engine) {
    return engine.assumed_doubt_outdated
               ? Clearance::tr(
                     "Sizes have changed since the engine's ± was stated, so nothing is "
                     "passed: state it again under Engine, What to measure next.")
               : Clearance::tr(
                     "Nobody has stated how well this engine is known, so nothing is "
                     "passed. Engine, What to measure next, works a ± out of the sizes; "
                     "a set-up of places states it itself (doubt/…).");
}

QString verdict_reason(const ValveClearance& line, const Engine& engine) {
    if (!line.found.minimum || !line.verdict) {
        return status(line);
    }
    const QString least = inches(engine.rod_clearance_limit_mm);
    const QString found = inches(line.found.minimum->clearance_mm);
    const QString worth = inches(line.doubt_mm.value_or(0.0));
    const QString doubt = line.doubt ? worth : Clearance::tr("%1 (assumed)").arg(worth);
    switch (*line.verdict) {
        case Verdict::passed:
            return Clearance::tr("%1 less its doubt of %2 clears the limit of %3.")
                .arg(found, doubt, least);
        case Verdict::passed_little_room:
            return Clearance::tr(
                       "%1 less its doubt of %2 clears the limit of %3, but there is under 0.015 "
                       "in: any change of "
                       "gasket, lifter or rod calls for a new check.")
                .arg(found, doubt, least);
        case Verdict::passed_for_now:
            return Clearance::tr(
                       "%1 less its doubt of %2 clears the limit of %3; 0.030 in is wanted cold at "
                       "mock-up.")
                .arg(found, doubt, least);
        case Verdict::too_close_to_call:
            return Clearance::tr("%1 ± %2 lies across the limit of %3: measure this one by hand.")
                .arg(found, doubt, least);
        case Verdict::failed:
            return Clearance::tr("%1 and its doubt of %2 stay under the limit of %3.")
                .arg(found, doubt, least);
        case Verdict::contact:
            return Clearance::tr(
                "Rod and tube touch. This can't be waived: cure it and measure again.");
        case Verdict::no_doubt_given:
            return no_doubt(engine);
    }
    return {};
}

QString wall(Wall wall, const Engine& engine) {
    // Lying cylinders have no inside of a vee: say up and down as well.
    const bool flat = engine.layout.arrangement == Arrangement::flat;
    switch (wall) {
        case Wall::front:
            return Clearance::tr("front wall");
        case Wall::rear:
            return Clearance::tr("rear wall");
        case Wall::inboard:
            return flat ? Clearance::tr("inboard (upper) wall") : Clearance::tr("inboard wall");
        case Wall::outboard:
            return flat ? Clearance::tr("outboard (lower) wall") : Clearance::tr("outboard wall");
    }
    return {};
}

QString end(BoreEnd end) {
    return end == BoreEnd::top ? Clearance::tr("rocker end") : Clearance::tr("lifter end");
}

QString feature(const CertifiedMinimum& found) {
    const QString name = QString::fromStdString(found.feature);
    switch (found.kind) {
        case FeatureKind::port_tube:
            return Clearance::tr("rod in its port tube");
        case FeatureKind::passage:
            return Clearance::tr("rod in %1").arg(name);
        case FeatureKind::obstacle:
            return found.part == MovedPart::rod
                       ? Clearance::tr("rod beside %1").arg(name)
                       : Clearance::tr("lifter's body beside %1").arg(name);
        case FeatureKind::rocker_body:
            return Clearance::tr("rod beside its rocker's body");
    }
    return {};
}

QString clock(double hours) {
    int halves = static_cast<int>(std::lround(hours * 2.0)) % 24;
    if (halves <= 1) {
        halves += 24;
    }
    return halves % 2 == 0
               ? Clearance::tr("%1 o'clock").arg(halves / 2)
               : Clearance::tr("%1:30 o'clock").arg(halves / 2 > 12 ? halves / 2 - 12 : halves / 2);
}

QString place(const RodClearance& clearance, const Engine& engine) {
    if (!clearance.in_passage) {
        return QString::fromStdString(clearance.feature);
    }
    const PlaceInPassage& at = *clearance.in_passage;
    const QString where =
        Clearance::tr("%1, %2, %3").arg(wall(at.wall, engine), end(at.end), clock(at.clock_hours));
    return clearance.kind == FeatureKind::port_tube
               ? where
               : Clearance::tr("%1: %2").arg(QString::fromStdString(clearance.feature), where);
}

QString status(const ValveClearance& line) {
    return train_status(line.found.status, line.found.status_at_mm, line.adjuster_needed_mm);
}

QString when(const ValveClearance& line) {
    if (!line.found.minimum) {
        return {};
    }
    if (!line.opening) {
        return Clearance::tr("on the heel");
    }
    if (std::abs(line.opening->in_deg() - line.closing->in_deg()) < 0.05) {
        return Clearance::tr("at full lift, %1").arg(crank_degrees(line.opening->in_deg()));
    }
    return Clearance::tr("%1 and %2")
        .arg(crank_degrees(line.opening->in_deg()), crank_degrees(line.closing->in_deg()));
}

QString doubt(const ValveClearance& line) {
    if (!line.doubt_mm) {
        return Clearance::tr("doubt not stated");
    }
    return line.doubt ? Clearance::tr("± %1, worked out").arg(inches(*line.doubt_mm))
                      : Clearance::tr("± %1, assumed").arg(inches(*line.doubt_mm));
}

QString doubts(const std::vector<ValveClearance>& lines) {
    const ValveClearance* least = nullptr;
    const ValveClearance* most = nullptr;
    for (const ValveClearance& line : lines) {
        if (!line.doubt_mm) {
            continue;
        }
        if (!least || *line.doubt_mm < *least->doubt_mm) {
            least = &line;
        }
        if (!most || *line.doubt_mm > *most->doubt_mm) {
            most = &line;
        }
    }
    if (!least) {
        return Clearance::tr("doubt not stated");
    }
    if (inches(*least->doubt_mm) == inches(*most->doubt_mm)) {
        return doubt(*most);
    }
    return Clearance::tr("± %1 to %2, worked out for each valve")
        .arg(inches(*least->doubt_mm).remove(" in"), inches(*most->doubt_mm));
}

QString valve(const ValvePosition& position) {
    return QString::fromStdString(position_name(position));
}

QString turning(Turning turning) {
    return turning == Turning::clockwise ? Clearance::tr("clockwise seen from the front")
                                         : Clearance::tr("counter-clockwise seen from the front");
}

QString token(Verdict verdict) {
    switch (verdict) {
        case Verdict::passed:
            return "pass";
        case Verdict::passed_little_room:
            return "pass_little_room";
        case Verdict::passed_for_now:
            return "pass_below_mock_up";
        case Verdict::too_close_to_call:
            return "too_close_to_call";
        case Verdict::failed:
            return "fail";
        case Verdict::contact:
            return "contact";
        case Verdict::no_doubt_given:
            return "no_verdict_doubt_unknown";
    }
    return {};
}

QString token(Wall wall) {
    switch (wall) {
        case Wall::front:
            return "front";
        case Wall::rear:
            return "rear";
        case Wall::inboard:
            return "inboard";
        case Wall::outboard:
            return "outboard";
    }
    return {};
}

QString token(BoreEnd end) {
    return end == BoreEnd::top ? "top" : "bottom";
}

QString token(FeatureKind kind) {
    switch (kind) {
        case FeatureKind::port_tube:
            return "port_tube";
        case FeatureKind::passage:
            return "passage";
        case FeatureKind::obstacle:
            return "obstacle";
        case FeatureKind::rocker_body:
            return "rocker_body";
    }
    return {};
}

QString token(MovedPart part) {
    return part == MovedPart::rod ? "rod" : "lifter_body";
}

QString feature_token(const CertifiedMinimum& found) {
    return found.kind == FeatureKind::port_tube ? QString("port_tube")
                                                : QString::fromStdString(found.feature);
}

} // namespace rodway::words
