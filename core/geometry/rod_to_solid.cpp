#include "core/geometry/rod_to_solid.h"

#include <cmath>

#include "core/geometry/least_along.h"

namespace rodway {

std::optional<ClosestBall> rod_to_solid(const Solid& solid, const Vec3& lower_K,
                                        const Vec3& upper_K,
                                        std::span<const RoundSection> sections) {
    const Vec3 along = upper_K - lower_K;
    const double length = along.norm();
    const Vec3 direction = length > 0.0 ? Vec3(along / length) : Vec3::Zero();
    ClosestBall ball;
    const RoundSection* nearest = nullptr;
    for (const RoundSection& section : sections) {
        const double taper = section.taper();
        const LeastAlong least = least_of_convex(
            [&](double t) {
                const SurfacePoint surface = signed_distance(solid, lower_K + t * direction);
                return ValueAndSlope{surface.distance_mm - section.radius_at(t),
                                     surface.outward_K.dot(direction) - taper};
            },
            section.from_mm, section.to_mm);
        if (least.value_mm < ball.clearance_mm) {
            nearest = &section;
            ball.clearance_mm = least.value_mm;
            ball.station_mm = least.at_mm;
            ball.ball_radius_mm = section.radius_at(least.at_mm);
            ball.taper = taper;
            ball.held_by_rod = least.at_mm == section.from_mm || least.at_mm == section.to_mm;
        }
    }
    if (!nearest) {
        return std::nullopt;
    }
    if (!ball.held_by_rod) {
        const RoundSection& section = *nearest;
        ball.station_mm = level_station(
            [&](double t) {
                return signed_distance(solid, lower_K + t * direction).outward_K.dot(direction) -
                       section.taper();
            },
            ball.station_mm, section.from_mm, section.to_mm);
        ball.ball_radius_mm = section.radius_at(ball.station_mm);
    }
    ball.p_axis_K = lower_K + ball.station_mm * direction;
    const SurfacePoint surface = signed_distance(solid, ball.p_axis_K);
    ball.clearance_mm = surface.distance_mm - ball.ball_radius_mm;
    ball.p_wall_K = surface.p_K;
    ball.normal_K = -surface.outward_K;
    if (!std::isfinite(ball.clearance_mm) || !ball.p_wall_K.allFinite()) {
        return std::nullopt;
    }
    return ball;
}

} // namespace rodway
