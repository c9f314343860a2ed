#pragma once

#include <optional>
#include <span>

#include "core/geometry/bore.h"
#include "core/geometry/round_rod.h"

namespace rodway {

/// The least clearance between a rod and the wall of a bore, over every ball of the rod, whose axis
/// runs from `lower_K` (station 0) to `upper_K`. For any bore and any sections; exact but for
/// rounding and `least_along_error_mm`. A straight rod in a round bore is quicker through
/// `axis_to_wall`.
/// Empty under the same terms: the axis doesn't go through, or touches a rounded edge.
[[nodiscard]] std::optional<ClosestBall> rod_to_bore(const Bore& bore, const Vec3& lower_K,
                                                     const Vec3& upper_K,
                                                     std::span<const RoundSection> sections);

} // namespace rodway
