#pragma once

#include <optional>
#include <vector>

#include "core/sheets/kinds/fastener_joints.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// For every joint whose thread was written (`joint_thread`): the preload recommended for a joint
/// that comes apart again, if its grade is one of the published ones, and the torque that brings
/// it, ends of the scatter included, if its lubricant or nut factor is known too. A thread that
/// can't be read is pointed out.
void add_joint_loads(SheetOutcome& outcome, const TakenReadings& readings);

/// Of every bolt that was brought to a torque: what it pulls with, and which share of its proof
/// load that is, ends of the scatter included, as far as thread, lubricant and grade are known.
/// `end_torque_Nm` by the joint's bolts.
void add_bolt_loads(SheetOutcome& outcome, const TakenReadings& readings, const LoggedJoint& joint,
                    const std::vector<std::optional<Interval>>& end_torque_Nm);

} // namespace rodway
