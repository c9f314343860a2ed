#pragma once

#include "core/clearance/gap_at.h"
#include "core/clearance/rod_clearance.h"

namespace rodway {

/// The rod at one pose as a gauge at one mouth of its passage feels it: of a stepped or tapered
/// rod, as thick as it is where its axis crosses that mouth, the passage standing where `rod` has
/// it. Exactly at a step, and in a gap between its sections, the thicker neighbour counts; beyond
/// a ball, the radius at that ball.
[[nodiscard]] RodPlace rod_at_mouth(const RodInTube& rod, const Pose& pose, BoreEnd end);

} // namespace rodway
