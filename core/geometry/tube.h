#pragma once

#include <optional>

#include "core/geometry/frames.h"

namespace rodway {

/// A straight round bore with two flat, square, sharp-edged ends. The wall is all the material
/// between the two end planes outside the bore, however far outward.
/// Millimetres, bank frame K. `axis` is a unit vector from the lifter end to the rocker end.
struct RoundTube {
    Vec3 centre_K = Vec3::Zero(); ///< middle of the bore, halfway between the ends
    Vec3 axis_K = Vec3::UnitZ();
    double length_mm = 0.0;
    double bore_radius_mm = 0.0;
};

enum class TubeEnd { top, bottom }; ///< rocker end, lifter end

/// Where a rod's axis comes closest to a tube's wall.
struct AxisToWall {
    double distance_mm = 0.0; ///< from the axis, not the rod's surface
    TubeEnd end = TubeEnd::top;
    Vec3 p_axis_K = Vec3::Zero();
    Vec3 p_wall_K = Vec3::Zero();
    /// The nearest point of the axis in the tube's own direction, from the tube's centre.
    double along_tube_mm = 0.0;
};

/// The least distance, over every point of the segment from `lower_K` to `upper_K`, to the tube's
/// wall. Exact but for rounding (below 1e-9 mm for coordinates within 2 m): inside the bore the
/// axis is farthest from the tube's axis at an end plane, and beyond an end plane its nearest wall
/// is that end's rim, which seen along the rod is an ellipse of semi-axes R and R·cos τ.
/// Empty if the segment doesn't cross both end planes inside the bore: it doesn't go through.
[[nodiscard]] std::optional<AxisToWall> axis_to_wall(const RoundTube& tube, const Vec3& lower_K,
                                                     const Vec3& upper_K);

/// Signed distance of a point to the tube's wall: positive outside the material, negative inside.
[[nodiscard]] double signed_distance_to_wall(const RoundTube& tube, const Vec3& point_K);

} // namespace rodway
