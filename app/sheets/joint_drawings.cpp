#include "app/sheets/joint_drawings.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/sheets/kinds/joint_log.h"
#include "core/sheets/position.h"

namespace rodway {
namespace {

struct Joints {
    Q_DECLARE_TR_FUNCTIONS(Joints)
};

BoltMark mark_of(const JointMark& mark) {
    if (mark.twice) {
        return BoltMark::doubled;
    }
    switch (mark.state) {
        case BoltPassState::waiting:
            return BoltMark::waiting;
        case BoltPassState::missed:
            return BoltMark::missed;
        case BoltPassState::ticked:
        case BoltPassState::done:
            return BoltMark::done;
        case BoltPassState::differs:
        case BoltPassState::easy:
            return BoltMark::off;
    }
    return BoltMark::waiting;
}

/// "head left"; of caps the word alone.
QString name_of(const LoggedJoint& joint) {
    const SheetPosition& first = joint.bolts.front().place;
    const QString bank =
        QString::fromStdString(first.part(PlacePart::bank).value_or(std::string()));
    const QString word =
        joint.word.empty() ? Joints::tr("Joint") : QString::fromStdString(joint.word);
    return (word.left(1).toUpper() + word.mid(1) + ' ' + bank).trimmed();
}

QString title_of(const LoggedJoint& joint, const JointLog& log) {
    const QString name = name_of(joint);
    const int steps = static_cast<int>(log.steps.size());
    const QString passes =
        steps > 0 ? Joints::tr("passes: %1").arg(steps) : Joints::tr("no steps written yet");
    return log.ordered ? Joints::tr("%1: %2, order in the dark tags").arg(name, passes)
                       : Joints::tr("%1: %2, no order written yet").arg(name, passes);
}

/// "7"; "2-1" where each cap counts its own.
QString bolt_name(const LoggedJoint& joint, const LoggedBolt& bolt) {
    const QString number = QString::number(bolt.number);
    if (!joint.caps) {
        return number;
    }
    const QString cap = QString::fromStdString(bolt.place.part(PlacePart::joint).value_or(""));
    return Joints::tr("%1-%2").arg(cap.section(' ', -1), number);
}

KnownJoint drawing_of(const LoggedJoint& joint, const JointLog& log) {
    KnownJoint known;
    known.drawing.title = title_of(joint, log);
    known.drawing.mark_words = {Joints::tr("waiting"), Joints::tr("done"), Joints::tr("missed"),
                                Joints::tr("not to its step"), Joints::tr("done twice")};
    for (std::size_t at = 0; at < joint.bolts.size(); ++at) {
        JointBolt bolt;
        bolt.name = bolt_name(joint, joint.bolts[at]);
        for (const JointMark& mark : log.marks[at]) {
            bolt.passes.push_back(mark_of(mark));
        }
        known.drawing.bolts.push_back(std::move(bolt));
        known.bolts.push_back(joint.bolts[at].position());
    }
    if (log.ordered) {
        known.drawing.path = log.order;
        for (std::size_t turn = 0; turn < log.order.size(); ++turn) {
            known.drawing.bolts[log.order[turn]].order =
                QString::number(static_cast<int>(turn) + 1);
        }
    }
    return known;
}

} // namespace

std::vector<KnownJoint> joint_drawings(const TakenReadings& readings, const EnginePlaces* places) {
    std::vector<KnownJoint> known;
    for (const LoggedJoint& joint : known_joints(readings, places)) {
        if (!joint.bolts.empty()) {
            known.push_back(drawing_of(joint, read_joint_log(readings, joint)));
        }
    }
    return known;
}

std::string bolt_in_pass(const std::string& bolt, std::size_t pass) {
    return bolt + " pass " + std::to_string(pass);
}

std::vector<std::string> expected_bolts(const std::vector<KnownJoint>& joints, Place place) {
    std::vector<std::string> positions;
    if (place != Place::bolt && place != Place::bolt_pass) {
        return positions;
    }
    for (const KnownJoint& joint : joints) {
        std::vector<std::size_t> order = joint.drawing.path;
        for (std::size_t bolt = 0; order.size() < joint.bolts.size(); ++bolt) {
            order.push_back(bolt);
        }
        const std::size_t passes =
            place == Place::bolt
                ? 1
                : std::max<std::size_t>(1, joint.drawing.bolts.front().passes.size());
        for (std::size_t pass = 1; pass <= passes; ++pass) {
            for (const std::size_t bolt : order) {
                positions.push_back(place == Place::bolt ? joint.bolts[bolt]
                                                         : bolt_in_pass(joint.bolts[bolt], pass));
            }
        }
    }
    return positions;
}

std::optional<JointSpot> joint_at(const std::vector<KnownJoint>& joints,
                                  const std::string& position, Place place) {
    const auto read = parse_sheet_position(position, place);
    if (!read) {
        return std::nullopt;
    }
    SheetPosition wanted = *read;
    wanted.parts.erase(PlacePart::pass);
    const bool whole_joint = place == Place::joint;
    wanted.place = Place::bolt;
    for (std::size_t at = 0; at < joints.size(); ++at) {
        for (std::size_t bolt = 0; bolt < joints[at].bolts.size(); ++bolt) {
            const auto kept = parse_sheet_position(joints[at].bolts[bolt], Place::bolt);
            auto own = kept ? std::optional(*kept) : std::nullopt;
            if (own && whole_joint) {
                own->parts.erase(PlacePart::bolt);
            }
            if (own && own->parts == wanted.parts) {
                return JointSpot{at, whole_joint ? std::nullopt : std::optional(bolt)};
            }
        }
    }
    return std::nullopt;
}

} // namespace rodway
