#include "core/geometry/bore.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/geometry/rim.h"
#include "core/geometry/rod_to_bore.h"

namespace rodway {
namespace {

/// The direction of the rod's axis against the tube's.
struct Lean {
    Vec3 direction_K; ///< of the axis, unit, from lifter to rocker
    Vec3 along_K;     ///< in an end plane, the way the rod leans
    Vec3 beside_K;    ///< in an end plane, square to the lean
    double sin_tilt = 0.0;
    double cos_tilt = 1.0;

    Lean(const Vec3& direction, const Vec3& tube_axis)
        : direction_K(direction), cos_tilt(std::min(1.0, direction.dot(tube_axis))) {
        const Vec3 across = direction - direction.dot(tube_axis) * tube_axis;
        sin_tilt = across.norm();
        // Too little tilt to tell a direction: the rim is a circle and any direction serves.
        along_K = sin_tilt > 1e-14 ? Vec3(across / sin_tilt) : tube_axis.unitOrthogonal();
        beside_K = tube_axis.cross(along_K);
    }
};

/// The rod's axis seen at one end of a round tube, whose rim is sharp: a rounding of the edge is
/// taken off what this finds.
struct EndView {
    BoreEnd end = BoreEnd::top;
    double outward = 1.0;  ///< +1 at the top, -1 at the bottom: lengths away from the tube count up
    double plane_mm = 0.0; ///< of the rim, from the tube's centre along its axis
    double rim_mm = 0.0;   ///< its radius
    double edge_mm = 0.0;  ///< rounding
    Vec3 crossing_K;       ///< where the axis crosses the plane, from the tube's axis there
    double crossing_r = 0.0;
    double beyond_mm = 0.0; ///< length of axis beyond the plane
};

/// Closest approach of the part of the axis beyond one end plane, that plane included.
class EndSearch {
  public:
    EndSearch(const Bore& tube, const Lean& lean, const EndView& view)
        : tube_(tube), lean_(lean), view_(view) {}

    AxisToWall nearest() {
        beside_ = view_.crossing_K.dot(lean_.beside_K);
        along_ = view_.crossing_K.dot(lean_.along_K);
        const double minor = view_.rim_mm * lean_.cos_tilt;
        const double seen_along = along_ * lean_.cos_tilt;
        if (offer_rim(nearest_on_ellipse(view_.rim_mm, minor, beside_, seen_along))) {
            return best_;
        }
        if (const auto second =
                second_nearest_on_ellipse(view_.rim_mm, minor, beside_, seen_along)) {
            offer_rim(*second);
        }
        offer_point(0.0);
        offer_point(view_.beyond_mm);
        return best_;
    }

  private:
    /// Takes the rim's point if its foot lies on the axis beyond the plane. Says whether it did.
    bool offer_rim(const EllipseFoot& foot) {
        const double rim_along = foot.y / lean_.cos_tilt;
        const double foot_mm = view_.outward * (rim_along - along_) * lean_.sin_tilt;
        if (foot_mm < 0.0 || foot_mm > view_.beyond_mm) {
            return false;
        }
        keep(foot.distance, foot_mm, foot.x * lean_.beside_K + rim_along * lean_.along_K);
        return true;
    }

    /// Takes the point of the axis `beyond` millimetres outside the plane.
    void offer_point(double beyond) {
        const Vec3 from_plane_axis = view_.crossing_K + view_.outward * beyond * lean_.direction_K;
        const double height = view_.outward * from_plane_axis.dot(tube_.axis_K);
        const Vec3 radial = from_plane_axis - from_plane_axis.dot(tube_.axis_K) * tube_.axis_K;
        const double r = radial.norm();
        const Vec3 outward_K = r > 0.0 ? Vec3(radial / r) : lean_.along_K;
        if (r < view_.rim_mm) {
            keep(std::hypot(view_.rim_mm - r, height), beyond, view_.rim_mm * outward_K);
        } else {
            keep(height, beyond, radial);
        }
    }

    void keep(double distance, double beyond, const Vec3& rim_from_plane_K) {
        if (found_ && distance >= distance_) {
            return;
        }
        found_ = true;
        distance_ = distance;
        const Vec3 plane_centre_K = tube_.centre_K + view_.plane_mm * tube_.axis_K;
        best_.distance_mm = distance - view_.edge_mm;
        best_.end = view_.end;
        best_.p_axis_K =
            plane_centre_K + view_.crossing_K + view_.outward * beyond * lean_.direction_K;
        best_.p_wall_K = plane_centre_K + rim_from_plane_K;
        if (view_.edge_mm > 0.0) {
            best_.p_wall_K -= view_.edge_mm / distance * (best_.p_wall_K - best_.p_axis_K);
        }
        best_.along_tube_mm = view_.plane_mm + view_.outward * beyond * lean_.cos_tilt;
    }

    const Bore& tube_;
    const Lean& lean_;
    const EndView& view_;
    double beside_ = 0.0;
    double along_ = 0.0;
    bool found_ = false;
    double distance_ = 0.0;
    AxisToWall best_;
};

/// The slow road, for any outline: a rod of no thickness.
std::optional<AxisToWall> axis_to_obround_wall(const Bore& bore, const Vec3& lower_K,
                                               const Vec3& upper_K) {
    const RoundSection axis{0.0, (upper_K - lower_K).norm(), 0.0, 0.0};
    const auto ball = rod_to_bore(bore, lower_K, upper_K, {&axis, 1});
    if (!ball) {
        return std::nullopt;
    }
    return AxisToWall{ball->clearance_mm, ball->end, ball->p_axis_K, ball->p_wall_K,
                      (ball->p_axis_K - bore.centre_K).dot(bore.axis_K)};
}

/// Signed distance to what one end leaves of the wall: with no other end, all below its plane.
double to_wall_at_end(double inside_bore, double above_end, double edge) {
    const double inside = inside_bore + edge;
    const double above = above_end + edge;
    return (inside > 0.0 && above > 0.0 ? std::hypot(inside, above) : std::max(inside, above)) -
           edge;
}

} // namespace

std::optional<AxisToWall> axis_to_wall(const Bore& tube, const Vec3& lower_K, const Vec3& upper_K) {
    if (tube.half_straight_mm > 0.0) {
        return axis_to_obround_wall(tube, lower_K, upper_K);
    }
    const Vec3 lower = lower_K - tube.centre_K;
    const Vec3 rod = upper_K - lower_K;
    const double lower_z = lower.dot(tube.axis_K);
    const double rise = rod.dot(tube.axis_K);
    const double half = tube.length_mm / 2.0;
    // Asked this way round, what is no number doesn't go through.
    if (!(lower_z <= -(half - tube.bottom_edge_radius_mm) &&
          lower_z + rise >= half - tube.top_edge_radius_mm)) {
        return std::nullopt;
    }
    const double length = rod.norm();
    const Lean lean(rod / length, tube.axis_K);
    std::array<EndView, 2> views;
    for (EndView& view : views) {
        const bool top = &view == &views[0];
        view.end = top ? BoreEnd::top : BoreEnd::bottom;
        view.outward = top ? 1.0 : -1.0;
        view.edge_mm = top ? tube.top_edge_radius_mm : tube.bottom_edge_radius_mm;
        view.plane_mm = view.outward * (half - view.edge_mm);
        view.rim_mm = tube.bore_radius_mm + view.edge_mm;
        const double fraction = (view.plane_mm - lower_z) / rise;
        view.crossing_K = lower + fraction * rod - view.plane_mm * tube.axis_K;
        view.crossing_K -= view.crossing_K.dot(tube.axis_K) * tube.axis_K;
        view.crossing_r = view.crossing_K.norm();
        view.beyond_mm = length * (top ? 1.0 - fraction : fraction);
        if (!(view.crossing_r < tube.bore_radius_mm)) {
            return std::nullopt;
        }
    }
    if (views[1].crossing_r > views[0].crossing_r) {
        std::swap(views[0], views[1]);
    }
    AxisToWall nearest = EndSearch(tube, lean, views[0]).nearest();
    // A rim can't be nearer to the whole straight line than what its crossing leaves,
    // foreshortened.
    const EndView& other = views[1];
    const double least = (other.rim_mm - other.crossing_r) * lean.cos_tilt - other.edge_mm;
    if (!(least > nearest.distance_mm)) {
        const AxisToWall at_other = EndSearch(tube, lean, other).nearest();
        if (at_other.distance_mm < nearest.distance_mm) {
            nearest = at_other;
        }
    }
    if (!(nearest.distance_mm > 0.0)) {
        return std::nullopt;
    }
    return nearest;
}

double signed_distance_to_wall(const Bore& tube, const Vec3& point_K) {
    const Vec3 from_centre = point_K - tube.centre_K;
    const double z = from_centre.dot(tube.axis_K);
    Vec3 out = from_centre - z * tube.axis_K;
    if (tube.half_straight_mm > 0.0) {
        out -= std::clamp(out.dot(tube.long_way_K), -tube.half_straight_mm, tube.half_straight_mm) *
               tube.long_way_K;
    }
    const double inside_bore = tube.bore_radius_mm - out.norm();
    const double half = tube.length_mm / 2.0;
    // Outside the wall the nearer end counts, inside it whichever lets out sooner.
    return std::max(to_wall_at_end(inside_bore, z - half, tube.top_edge_radius_mm),
                    to_wall_at_end(inside_bore, -z - half, tube.bottom_edge_radius_mm));
}

} // namespace rodway
