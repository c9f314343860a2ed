#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "core/fasteners/fastener_log.h"
#include "core/fasteners/tightening_steps.h"
#include "core/sheets/kinds/fastener_joints.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// One step of a joint's plan, the pass of the log it is written down in, and under which quantity.
struct LoggedStep {
    TighteningStep step;
    int pass = 0; ///< 0: not by passes
    std::string_view quantity;
};

/// One bolt in one step.
struct JointMark {
    BoltPassState state = BoltPassState::waiting;
    bool twice = false; ///< written down more than once
};

/// What the log of one joint says, pass by pass, the one after the run included.
struct JointLog {
    /// Bolts missed, done twice, off the step; steps or an order that can't be read.
    std::vector<SheetFinding> findings;
    /// By the joint's bolts: the torque that a bolt was brought to last, N m; nothing if something
    /// else came after it, such as an angle.
    std::vector<std::optional<Interval>> end_torque_Nm;

    // For a drawing of the joint. Bolts are indices into the joint's.

    std::vector<std::size_t> order; ///< by number, if nobody wrote an order that can be read
    bool ordered = false;           ///< somebody did
    std::vector<LoggedStep> steps;  ///< none: nobody wrote any, or tightened anything
    std::vector<std::vector<JointMark>> marks; ///< by bolt, by step
};

/// Sets the log beside the joint's steps (`joint_steps`; a bare torque is in the unit in which the
/// log's are typed). Each step is a pass, unless the log has torque and angle in one pass and no
/// more passes than that makes: then an angle belongs to the torque before it. Passes that no steps
/// were written for are set beside what most of their bolts had.
/// A bolt is missed if a later pass has been begun, or, in the last pass begun, if the order
/// (`joint_order`) has a later one done; without an order every bolt that is open there.
[[nodiscard]] JointLog read_joint_log(const TakenReadings& readings, const LoggedJoint& joint);

/// What a bolt is longer than free, mm: as written, else by its two lengths.
[[nodiscard]] std::optional<Interval> stretch_by_lengths(const TakenReadings& readings,
                                                         const std::string& bolt);

} // namespace rodway
