#pragma once

#include <optional>
#include <span>

#include "core/geometry/round_rod.h"
#include "core/geometry/solid.h"

namespace rodway {

/// The least clearance between a solid and a rod, over every ball of the rod, whose axis runs from
/// `lower_K` (station 0) to `upper_K`. Exact but for rounding and `least_along_error_mm`: the
/// signed distance to a convex solid is convex along a straight line. Empty without sections, and
/// where a size or place is no number.
[[nodiscard]] std::optional<ClosestBall> rod_to_solid(const Solid& solid, const Vec3& lower_K,
                                                      const Vec3& upper_K,
                                                      std::span<const RoundSection> sections);

} // namespace rodway
