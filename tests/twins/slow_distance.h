#pragma once

#include <functional>
#include <vector>

#include "core/geometry/bore.h"
#include "core/geometry/solid.h"
#include "core/valvetrain/train.h"

namespace rodway::twins {

/// Signed distance of a point to a bore's wall: the least over the pieces of the wall's section
/// (bore, roundings, end faces), its sign from which side of them the point is on. Millimetres.
double slow_distance(const Bore& bore, const Vec3& point_K);

/// Signed distance of a point to a solid: the least over the pieces of its surface.
double slow_distance(const Solid& solid, const Vec3& point_K);

using PointDistance = std::function<double(const Vec3&)>;

/// Clearance by walking along the rod's axis: a fine walk along every section, refined by golden
/// section round each dip, each point measured by itself. `profile` in diameters, as typed.
double slow_clearance(const PointDistance& distance, const Vec3& lower_K, const Vec3& upper_K,
                      const std::vector<RodSection>& profile);

} // namespace rodway::twins
