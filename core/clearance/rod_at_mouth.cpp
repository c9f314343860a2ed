#include "core/clearance/rod_at_mouth.h"

#include <algorithm>
#include <cmath>

namespace rodway {
namespace {

/// Thickest of the sections that reach to a station; of the nearest ones, if none does.
double radius_at(const RoundSections& sections, double station_mm) {
    constexpr double rounding_mm = 1e-9;
    const auto off = [&](const RoundSection& section) {
        return std::max({0.0, section.from_mm - station_mm, station_mm - section.to_mm});
    };
    double nearest = off(sections.front());
    for (const RoundSection& section : sections) {
        nearest = std::min(nearest, off(section));
    }
    double radius = 0.0;
    for (const RoundSection& section : sections) {
        if (off(section) <= nearest + rounding_mm) {
            const double there = std::clamp(station_mm, section.from_mm, section.to_mm);
            radius = std::max(radius, section.radius_at(there));
        }
    }
    return radius;
}

} // namespace

RodPlace rod_at_mouth(const RodInTube& rod, const Pose& pose, BoreEnd end) {
    RodPlace place{pose.lower_ball_K, pose.upper_ball_K, rod.rod_radius_mm};
    const Vec3 along = place.upper_K - place.lower_K;
    const double rise = along.dot(rod.tube.axis_K);
    if (rod.profile.empty() || !(std::abs(rise) > 0.0)) {
        return place;
    }
    const double up_to_mouth =
        mouth_plane_mm(rod.tube, end) + (rod.tube.centre_K - place.lower_K).dot(rod.tube.axis_K);
    place.radius_mm = radius_at(rod.profile, up_to_mouth / rise * along.norm());
    return place;
}

} // namespace rodway
