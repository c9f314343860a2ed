#include "core/clearance/rod_clearance.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/geometry/rod_to_bore.h"
#include "core/geometry/rod_to_solid.h"

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

RoundSections rod_sections(const Pushrod& rod) {
    RoundSections sections;
    const double L = rod.length_mm;
    const double thickest = rod.diameter_mm / 2.0;
    std::vector<RodSection> profile = rod.profile;
    std::sort(profile.begin(), profile.end(), [](const RodSection& left, const RodSection& right) {
        return left.from_mm < right.from_mm;
    });
    double covered = 0.0;
    for (const RodSection& given : profile) {
        const RoundSection whole{given.from_mm, given.to_mm, given.diameter_from_mm / 2.0,
                                 given.diameter_to_mm / 2.0};
        const double from = std::max(0.0, given.from_mm);
        const double to = std::min(L, given.to_mm);
        if (!(from < to)) {
            continue;
        }
        if (from > covered) {
            sections.push_back({covered, from, thickest, thickest});
        }
        sections.push_back({from, to, whole.radius_at(from), whole.radius_at(to)});
        covered = std::max(covered, to);
    }
    if (covered < L || sections.empty()) {
        sections.push_back({covered, L, thickest, thickest});
    }
    return sections;
}

namespace {

/// A rocker's body, given from the pivot as it stands on the heel, where a pose puts it.
Capsule turned_body(const Capsule& body, const Linkage& linkage, const Pose& pose) {
    const Vec3& n = linkage.shaft_axis_K();
    const auto turn = [&](const Vec3& from_pivot) -> Vec3 {
        const Vec3 along = from_pivot.dot(n) * n;
        return linkage.pivot_K() + along + pose.cos_turned * (from_pivot - along) +
               pose.sin_turned * n.cross(from_pivot);
    };
    return {turn(body.from_K), turn(body.to_K), body.radius_mm};
}

/// The quick road for a straight rod in a round bore.
std::optional<ClosestBall> straight_in_round(const Bore& bore, const Pose& pose, double radius_mm,
                                             double length_mm) {
    const auto nearest = axis_to_wall(bore, pose.lower_ball_K, pose.upper_ball_K);
    if (!nearest) {
        return std::nullopt;
    }
    ClosestBall ball;
    ball.clearance_mm = nearest->distance_mm - radius_mm;
    ball.ball_radius_mm = radius_mm;
    ball.end = nearest->end;
    ball.p_axis_K = nearest->p_axis_K;
    ball.p_wall_K = nearest->p_wall_K;
    ball.normal_K = (nearest->p_wall_K - nearest->p_axis_K) / nearest->distance_mm;
    ball.station_mm = (nearest->p_axis_K - pose.lower_ball_K).norm();
    constexpr double rounding_mm = 1e-9;
    ball.held_by_rod = ball.station_mm < rounding_mm || ball.station_mm > length_mm - rounding_mm;
    return ball;
}

} // namespace

std::optional<ClosestBall> closest_ball(const RodPair& pair, const Pose& pose) {
    if (pair.bore != nullptr) {
        const RoundSection& first = pair.rod.front();
        if (pair.rod.size() == 1 && first.radius_from_mm == first.radius_to_mm &&
            !(pair.bore->half_straight_mm > 0.0)) {
            return straight_in_round(*pair.bore, pose, first.radius_from_mm,
                                     pair.linkage.rod_length_mm());
        }
        return rod_to_bore(*pair.bore, pose.lower_ball_K, pose.upper_ball_K, pair.rod);
    }
    if (const auto* body = std::get_if<Capsule>(pair.solid);
        body != nullptr && pair.kind == FeatureKind::rocker_body) {
        return rod_to_solid(turned_body(*body, pair.linkage, pose), pose.lower_ball_K,
                            pose.upper_ball_K, pair.rod);
    }
    return rod_to_solid(*pair.solid, pose.lower_ball_K, pose.upper_ball_K, pair.rod);
}

RodClearance rod_clearance(const RodPair& pair, const ClosestBall& ball, double lobe_lift_mm) {
    RodClearance found;
    found.lobe_lift_mm = lobe_lift_mm;
    found.clearance_mm = ball.clearance_mm;
    found.normal_K = ball.normal_K;
    found.p_wall_K = ball.p_wall_K;
    found.p_rod_K = ball.p_axis_K + ball.ball_radius_mm * ball.normal_K;
    found.kind = pair.kind;
    found.feature = pair.name;
    found.station_mm = ball.station_mm;
    found.ball_radius_mm = ball.ball_radius_mm;
    if (pair.bore != nullptr) {
        const WallDirection direction =
            wall_direction(*pair.bore, found.p_wall_K, pair.outboard_y_sign);
        found.in_passage =
            PlaceInPassage{ball.end, direction.wall, direction.clock_hours,
                           pair.bore->length_mm / 2.0 -
                               (found.p_wall_K - pair.bore->centre_K).dot(pair.bore->axis_K)};
    }
    return found;
}

TubePair::TubePair(const RodInTube& rod)
    : straight_{0.0, rod.linkage.rod_length_mm(), rod.rod_radius_mm, rod.rod_radius_mm},
      pair_{rod.linkage,
            rod.profile.empty() ? std::span<const RoundSection>(&straight_, 1)
                                : std::span<const RoundSection>(rod.profile),
            rod.full_lift_mm,
            rod.outboard_y_sign,
            FeatureKind::port_tube,
            rod.name,
            &rod.tube,
            nullptr} {}

std::optional<RodClearance> rod_clearance_at(const RodInTube& rod, double lobe_lift_mm) {
    const std::optional<Pose> pose = rod.linkage.at(lobe_lift_mm);
    if (!pose) {
        return std::nullopt;
    }
    const TubePair tube(rod);
    const auto ball = closest_ball(tube.pair(), *pose);
    return ball ? std::optional(rod_clearance(tube.pair(), *ball, lobe_lift_mm)) : std::nullopt;
}

} // namespace rodway
