#include "core/geometry/bore.h"

#include <algorithm>
#include <cmath>

#include "core/base/assert.h"
#include "core/geometry/rim.h"

namespace rodway {
namespace {

/// The rod's axis seen at one end plane of the tube. `outward` is +1 at the top, -1 at the bottom:
/// lengths along the axis beyond the plane count positive away from the tube.
struct EndView {
    const Bore& tube;
    double plane_mm; ///< of the end plane, from the tube's centre along its axis
    double outward;
    Vec3 crossing_K;  ///< where the axis crosses the plane, from the tube's axis at that plane
    Vec3 direction_K; ///< of the axis, unit, from lifter to rocker
    double beyond_mm; ///< length of axis beyond the plane
};

/// Closest approach of the part of the axis beyond one end plane, that plane included.
class EndSearch {
  public:
    explicit EndSearch(const EndView& view) : view_(view) {}

    AxisToWall nearest() {
        const double R = view_.tube.bore_radius_mm;
        const Vec3 across =
            view_.direction_K - view_.direction_K.dot(view_.tube.axis_K) * view_.tube.axis_K;
        sin_tilt_ = across.norm();
        cos_tilt_ = view_.direction_K.dot(view_.tube.axis_K);
        // Too little tilt to tell a direction: the rim is a circle and any direction serves.
        const bool tilted = sin_tilt_ > 1e-14;
        along_K_ = tilted ? Vec3(across / sin_tilt_) : view_.tube.axis_K.unitOrthogonal();
        beside_K_ = view_.tube.axis_K.cross(along_K_);
        beside_ = view_.crossing_K.dot(beside_K_);
        along_ = view_.crossing_K.dot(along_K_);

        const double minor = R * cos_tilt_;
        if (offer_rim(nearest_on_ellipse(R, minor, beside_, along_ * cos_tilt_))) {
            return best_;
        }
        if (const auto second = second_nearest_on_ellipse(R, minor, beside_, along_ * cos_tilt_)) {
            offer_rim(*second);
        }
        offer_point(0.0);
        offer_point(view_.beyond_mm);
        return best_;
    }

  private:
    /// Takes the rim's point if its foot lies on the axis beyond the plane. Says whether it did.
    bool offer_rim(const EllipseFoot& foot) {
        const double rim_along = foot.y / cos_tilt_;
        const double foot_mm = view_.outward * (rim_along - along_) * sin_tilt_;
        if (foot_mm < 0.0 || foot_mm > view_.beyond_mm) {
            return false;
        }
        const Vec3 rim_K = foot.x * beside_K_ + rim_along * along_K_;
        keep(foot.distance, foot_mm, rim_K);
        return true;
    }

    /// Takes the point of the axis `beyond` millimetres outside the plane.
    void offer_point(double beyond) {
        const Vec3 from_plane_axis = view_.crossing_K + view_.outward * beyond * view_.direction_K;
        const double height = view_.outward * from_plane_axis.dot(view_.tube.axis_K);
        const Vec3 radial =
            from_plane_axis - from_plane_axis.dot(view_.tube.axis_K) * view_.tube.axis_K;
        const double r = radial.norm();
        const double R = view_.tube.bore_radius_mm;
        const Vec3 outward_K = r > 0.0 ? Vec3(radial / r) : along_K_;
        if (r < R) {
            keep(std::hypot(R - r, height), beyond, R * outward_K);
        } else {
            keep(height, beyond, radial);
        }
    }

    void keep(double distance, double beyond, const Vec3& wall_from_plane_K) {
        if (found_ && distance >= best_.distance_mm) {
            return;
        }
        found_ = true;
        const Vec3 plane_centre_K = view_.tube.centre_K + view_.plane_mm * view_.tube.axis_K;
        best_.distance_mm = distance;
        best_.end = view_.outward > 0.0 ? BoreEnd::top : BoreEnd::bottom;
        best_.p_axis_K =
            plane_centre_K + view_.crossing_K + view_.outward * beyond * view_.direction_K;
        best_.p_wall_K = plane_centre_K + wall_from_plane_K;
        best_.along_tube_mm = view_.plane_mm + view_.outward * beyond * cos_tilt_;
    }

    EndView view_;
    double sin_tilt_ = 0.0;
    double cos_tilt_ = 1.0;
    Vec3 along_K_;  ///< in the end plane, the way the rod leans
    Vec3 beside_K_; ///< in the end plane, square to the lean
    double beside_ = 0.0;
    double along_ = 0.0;
    bool found_ = false;
    AxisToWall best_;
};

} // namespace

std::optional<AxisToWall> axis_to_wall(const Bore& tube, const Vec3& lower_K, const Vec3& upper_K) {
    const Vec3 lower = lower_K - tube.centre_K;
    const Vec3 upper = upper_K - tube.centre_K;
    const double lower_z = lower.dot(tube.axis_K);
    const double upper_z = upper.dot(tube.axis_K);
    const double half = tube.length_mm / 2.0;
    if (!(lower_z <= -half && upper_z >= half)) {
        return std::nullopt;
    }
    const Vec3 rod = upper - lower;
    const double length = rod.norm();
    const Vec3 direction = rod / length;

    std::optional<AxisToWall> nearest;
    for (const double outward : {1.0, -1.0}) {
        const double plane = outward * half;
        const double fraction = (plane - lower_z) / (upper_z - lower_z);
        Vec3 crossing = lower + fraction * rod;
        crossing -= crossing.dot(tube.axis_K) * tube.axis_K;
        if (crossing.norm() >= tube.bore_radius_mm) {
            return std::nullopt;
        }
        const double beyond = length * (outward > 0.0 ? 1.0 - fraction : fraction);
        const AxisToWall at_end =
            EndSearch({tube, plane, outward, crossing, direction, beyond}).nearest();
        if (!nearest || at_end.distance_mm < nearest->distance_mm) {
            nearest = at_end;
        }
    }
    return nearest;
}

double signed_distance_to_wall(const Bore& tube, const Vec3& point_K) {
    const Vec3 from_centre = point_K - tube.centre_K;
    const double z = from_centre.dot(tube.axis_K);
    const double r = (from_centre - z * tube.axis_K).norm();
    const double past_end = std::abs(z) - tube.length_mm / 2.0;
    const double inside_bore = tube.bore_radius_mm - r;
    if (past_end > 0.0) {
        return inside_bore > 0.0 ? std::hypot(inside_bore, past_end) : past_end;
    }
    return std::max(inside_bore, past_end);
}

} // namespace rodway
