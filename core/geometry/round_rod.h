#pragma once

#include <algorithm>
#include <limits>
#include <vector>

#include "core/geometry/bore.h"

namespace rodway {

/// One length of a round rod over which its radius runs evenly from one value to another. Stations
/// are millimetres along its axis. A step is two sections that meet at one station.
struct RoundSection {
    double from_mm = 0.0;
    double to_mm = 0.0;
    double radius_from_mm = 0.0;
    double radius_to_mm = 0.0;

    /// Change of the radius for each millimetre along the axis; 0 for a section of no length.
    [[nodiscard]] double taper() const {
        return to_mm > from_mm ? (radius_to_mm - radius_from_mm) / (to_mm - from_mm) : 0.0;
    }
    [[nodiscard]] double radius_at(double station_mm) const {
        return radius_from_mm + taper() * (station_mm - from_mm);
    }
    [[nodiscard]] double least_radius_mm() const { return std::min(radius_from_mm, radius_to_mm); }
    [[nodiscard]] double most_radius_mm() const { return std::max(radius_from_mm, radius_to_mm); }
};

/// A rod is the union of balls of its sections' radius along its axis: it contains the real rod, so
/// that it never shows more clearance than there is.
using RoundSections = std::vector<RoundSection>;

/// The ball of a rod that comes closest to something, and where. Millimetres, bank frame K.
/// `p_wall - (p_axis + ball_radius · normal) = clearance · normal`.
struct ClosestBall {
    double clearance_mm = std::numeric_limits<double>::infinity(); ///< negative: both share space
    double ball_radius_mm = 0.0;
    double station_mm = 0.0;    ///< of the ball's centre, from the rod's lower end
    double taper = 0.0;         ///< of the section that the ball belongs to
    bool held_by_rod = false;   ///< at an end of its section: the place moves with the rod
    BoreEnd end = BoreEnd::top; ///< of a bore: the end that is nearer
    Vec3 p_axis_K = Vec3::Zero();
    Vec3 p_wall_K = Vec3::Zero();
    Vec3 normal_K = Vec3::UnitX(); ///< unit, from the rod's axis to the wall

    /// Signed distance of the ball's centre.
    [[nodiscard]] double axis_mm() const { return clearance_mm + ball_radius_mm; }
};

} // namespace rodway
