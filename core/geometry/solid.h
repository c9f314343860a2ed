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

} // namespace rodway
