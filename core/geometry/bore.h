#pragma once

#include <optional>

#include "core/geometry/frames.h"

namespace rodway {

/// A straight bore through material, round or obround, with two flat, square ends whose edges are
/// sharp or rounded. The wall is all the material between the two end planes outside the bore,
/// however far outward. Millimetres, bank frame K.
struct Bore {
    Vec3 centre_K = Vec3::Zero(); ///< middle of the bore, halfway between the ends
    Vec3 axis_K = Vec3::UnitZ();  ///< unit, from the lifter end to the rocker end
    double length_mm = 0.0;
    double bore_radius_mm = 0.0; ///< of a round bore; of an obround's rounded sides
    /// Obround: half the distance between the centres of its rounded sides. Round: 0.
    double half_straight_mm = 0.0;
    Vec3 long_way_K = Vec3::UnitX(); ///< unit, square to the axis; of no meaning in a round bore
    double top_edge_radius_mm = 0.0; ///< of the rounding at the rocker end; sharp: 0
    double bottom_edge_radius_mm = 0.0;
};

enum class BoreEnd { top, bottom }; ///< rocker end, lifter end

/// Where a rod's axis comes closest to a tube's wall.
struct AxisToWall {
    double distance_mm = 0.0; ///< from the axis, not the rod's surface
    BoreEnd end = BoreEnd::top;
    Vec3 p_axis_K = Vec3::Zero();
    Vec3 p_wall_K = Vec3::Zero();
    /// The nearest point of the axis in the tube's own direction, from the tube's centre.
    double along_tube_mm = 0.0;
};

/// The least distance, over every point of the segment from `lower_K` to `upper_K`, to the tube's
/// wall. Exact but for rounding (below 1e-9 mm for coordinates within 2 m): inside the bore the
/// axis is farthest from the tube's axis at an end plane, and beyond an end plane its nearest wall
/// is that end's rim, which in a round bore, seen along the rod, is an ellipse of semi-axes R and
/// R·cos τ. A rounded edge of radius e is the rim of a bore of radius R + e that ends e earlier,
/// and e is taken off the distance.
/// Empty if the segment doesn't cross both end planes (with a rounded edge: the planes where the
/// rounding begins) inside the bore, or touches a rounded edge: it doesn't go through.
[[nodiscard]] std::optional<AxisToWall> axis_to_wall(const Bore& tube, const Vec3& lower_K,
                                                     const Vec3& upper_K);

/// Signed distance of a point to the tube's wall: positive outside the material, negative inside.
[[nodiscard]] double signed_distance_to_wall(const Bore& tube, const Vec3& point_K);

} // namespace rodway
