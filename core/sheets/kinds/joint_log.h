#pragma once

#include <optional>
#include <vector>

#include "core/sheets/kinds/fastener_joints.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// What the log of one joint says, pass by pass, the one after the run included.
struct JointLog {
    /// Bolts missed, done twice, off the step; steps or an order that can't be read.
    std::vector<SheetFinding> findings;
    /// By the joint's bolts: the torque that a bolt was brought to last, N m; nothing if something
    /// else came after it, such as an angle.
    std::vector<std::optional<Interval>> end_torque_Nm;
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
