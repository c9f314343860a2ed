#include <algorithm>

#include "core/sheets/kinds/bolt_loads.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/joint_log.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// A bolt is longer tight than free by what its stretch is; a figure by hand must agree.
void add_stretch(SheetOutcome& outcome, const TakenReadings& readings) {
    for (const Taken& tight : readings.of("fastener_tight_length")) {
        const std::string bolt = sheet_position_text(tight.place);
        const auto free_length = readings.number("fastener_free_length", bolt);
        const auto tight_length = tight.range();
        if (free_length && tight_length) {
            add_beside_reading(outcome, readings, "fastener_stretch", bolt,
                               *tight_length - *free_length);
        }
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    add_stretch(outcome, facts.readings);
    add_joint_loads(outcome, facts.readings);
    for (const LoggedJoint& joint : logged_joints(facts.readings, facts.places)) {
        JointLog log = read_joint_log(facts.readings, joint);
        for (SheetFinding& finding : log.findings) {
            // Joints that share their steps share what is wrong with them.
            const bool known = std::any_of(
                outcome.findings.begin(), outcome.findings.end(), [&](const SheetFinding& one) {
                    return one.what == PointedOut::not_understood &&
                           one.quantity == finding.quantity && one.positions == finding.positions;
                });
            if (!known) {
                outcome.findings.push_back(std::move(finding));
            }
        }
        add_bolt_loads(outcome, facts.readings, joint, log.end_torque_Nm);
    }
    return outcome;
}

/// Rod bolts stretch by .0055 to .007 in; the maker's figure goes before it.
std::vector<SheetLimit> usual_limits(const SheetFacts& facts) {
    std::vector<SheetLimit> limits;
    for (const LoggedJoint& joint : logged_joints(facts.readings, facts.places)) {
        for (const LoggedBolt& bolt : joint.bolts) {
            if (joint.word == "rod") {
                limits.push_back(common_practice("fastener_stretch", 0.0055 * inch_mm,
                                                 0.0070 * inch_mm, bolt.position()));
            }
        }
    }
    return limits;
}

} // namespace

SheetKind fasteners_sheet() {
    constexpr Origin out = Origin::worked_out;
    return {"fasteners",
            {
                {"joint_thread", Form::words, Place::joint},
                {"joint_grade", Form::words, Place::joint},
                {"joint_lubricant", Form::words, Place::joint},
                {"joint_nut_factor", Form::ratio, Place::joint},
                {"joint_bolts", Form::count, Place::joint},
                {"joint_steps", Form::words, Place::joint},
                {"joint_order", Form::words, Place::joint},
                {"joint_usual_preload", Form::force, Place::joint, "lbf", "", out},
                {"joint_usual_torque", Form::torque, Place::joint, "lb-ft", "", out},
                {"fastener_lubricant", Form::words, Place::bolt},
                {"fastener_torque", Form::torque, Place::bolt_pass, "lb-ft"},
                {"fastener_angle", Form::angle, Place::bolt_pass, "deg"},
                {"fastener_free_length", Form::length, Place::bolt, "in"},
                {"fastener_tight_length", Form::length, Place::bolt, "in"},
                {"fastener_stretch", Form::length, Place::bolt, "in"},
                {"fastener_preload", Form::force, Place::bolt, "lbf", "", out},
                {"fastener_proof_share", Form::percent, Place::bolt, "%", "", out},
                {"fastener_reused", Form::yes_no, Place::bolt},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
