#pragma once

#include <array>
#include <variant>

#include "core/geometry/frames.h"

namespace rodway {

// Convex solids. Millimetres, bank frame K; axes and normals are unit vectors.

/// Everything on the side of a plane away from where `normal_K` points.
struct HalfSpace {
    Vec3 point_K = Vec3::Zero();
    Vec3 normal_K = Vec3::UnitZ(); ///< out of the material
};

/// A round bar with flat, square ends.
struct RoundBar {
    Vec3 from_K = Vec3::Zero();
    Vec3 to_K = Vec3::UnitZ();
    double radius_mm = 0.0;
};

struct Cuboid {
    Vec3 centre_K = Vec3::Zero();
    std::array<Vec3, 3> axes_K{Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ()}; ///< right-handed
    Vec3 half_sizes_mm = Vec3::Zero();                                       ///< along the axes
};

/// A round bar with half balls for ends.
struct Capsule {
    Vec3 from_K = Vec3::Zero();
    Vec3 to_K = Vec3::UnitZ();
    double radius_mm = 0.0;
};

using Solid = std::variant<HalfSpace, RoundBar, Cuboid, Capsule>;

/// The place on a solid's surface that is nearest to a point.
struct SurfacePoint {
    double distance_mm = 0.0;       ///< of the point: positive outside the solid, negative inside
    Vec3 p_K = Vec3::Zero();        ///< on the surface: point - distance · outward
    Vec3 outward_K = Vec3::UnitZ(); ///< unit, the way in which the distance grows
};

/// Exact but for rounding, and continuous through the surface; where several places are nearest,
/// one of them. A bar or capsule of no length is taken upright.
[[nodiscard]] SurfacePoint signed_distance(const Solid& solid, const Vec3& point_K);

/// The solid moved by a vector.
[[nodiscard]] Solid shifted(const Solid& solid, const Vec3& by_K);

/// The solid turned about the frame's origin.
[[nodiscard]] Solid turned(const Solid& solid, const Eigen::Matrix3d& rotation);

} // namespace rodway
