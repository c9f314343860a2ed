#include "core/clearance/rod_clearance.h"

#include <cmath>
#include <numbers>

namespace rodway {

WallDirection wall_direction(const Bore& tube, const Vec3& p_wall_K, double outboard_y_sign) {
    const Vec3& e = tube.axis_K;
    const Vec3 forward = (-Vec3::UnitX() + e.x() * e).normalized();
    const Vec3 to_y = forward.cross(e); // +y of the bank, put square to the tube; 3 o'clock
    const Vec3 out = p_wall_K - tube.centre_K;
    const double ahead = out.dot(forward);
    const double aside = out.dot(to_y);

    WallDirection direction;
    direction.clock_hours = std::atan2(aside, ahead) * 6.0 / std::numbers::pi;
    if (direction.clock_hours <= 0.0) {
        direction.clock_hours += 12.0;
    }
    if (std::abs(ahead) >= std::abs(aside)) {
        direction.wall = ahead >= 0.0 ? Wall::front : Wall::rear;
    } else {
        direction.wall = aside * outboard_y_sign >= 0.0 ? Wall::outboard : Wall::inboard;
    }
    return direction;
}

std::optional<RodClearance> rod_clearance_at(const RodInTube& rod, double lobe_lift_mm) {
    const std::optional<Pose> pose = rod.linkage.at(lobe_lift_mm);
    if (!pose) {
        return std::nullopt;
    }
    const auto nearest = axis_to_wall(rod.tube, pose->lower_ball_K, pose->upper_ball_K);
    if (!nearest) {
        return std::nullopt;
    }
    RodClearance found;
    found.lobe_lift_mm = lobe_lift_mm;
    found.clearance_mm = nearest->distance_mm - rod.rod_radius_mm;
    found.normal_K = (nearest->p_wall_K - nearest->p_axis_K) / nearest->distance_mm;
    found.p_wall_K = nearest->p_wall_K;
    found.p_rod_K = nearest->p_axis_K + rod.rod_radius_mm * found.normal_K;
    found.end = nearest->end;
    const WallDirection direction = wall_direction(rod.tube, found.p_wall_K, rod.outboard_y_sign);
    found.wall = direction.wall;
    found.clock_hours = direction.clock_hours;
    found.depth_mm =
        rod.tube.length_mm / 2.0 - (found.p_wall_K - rod.tube.centre_K).dot(rod.tube.axis_K);
    return found;
}

} // namespace rodway
