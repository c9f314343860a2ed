#pragma once

#include <vector>

#include "core/units/crank_arc.h"

namespace rodway {

/// The fewest crank angles such that each arc holds at least one of them, in the order in which
/// they come from 0. Exact: some best set has an angle at the end of an arc (move any angle of it
/// on until the first arc that it lies in ends); with that angle taken, the arcs left over lie on a
/// line, where going from end to end is best (interval stabbing, a standard greedy argument: the
/// arc that ends first needs an angle, and none does more than its end). So each end is tried.
/// Work grows with the square of the number of arcs.
[[nodiscard]] std::vector<CrankAngle> fewest_angles(const std::vector<CrankArc>& arcs);

} // namespace rodway
