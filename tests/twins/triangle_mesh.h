#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "core/geometry/segment.h"

namespace rodway::twins {

/// A surface of triangles, millimetres.
struct TriangleMesh {
    std::vector<Vec3> points;
    std::vector<std::array<std::size_t, 3>> triangles;
};

using Triangle = std::array<Vec3, 3>;
[[nodiscard]] Triangle corners(const TriangleMesh& mesh, std::size_t triangle);

/// Distances to a surface, every triangle by itself. A triangle is its three edges and its inside;
/// edges are measured by `closest_points`.
[[nodiscard]] double slow_distance(const TriangleMesh& mesh, const Vec3& point);
/// 0 where the segment pierces the surface.
[[nodiscard]] double slow_distance(const TriangleMesh& mesh, const Segment& segment);
/// Of two surfaces that don't pierce each other.
[[nodiscard]] double slow_distance(const TriangleMesh& first, const TriangleMesh& second);

/// A box's surface.
[[nodiscard]] TriangleMesh box_mesh(const Vec3& centre, const Eigen::Matrix3d& axes,
                                    const Vec3& half_sizes_mm);

} // namespace rodway::twins
