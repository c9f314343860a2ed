#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/cam/lobe.h"
#include "core/cam/lobe_extremes.h"
#include "core/geometry/frames.h"

namespace rodway {

/// A roller whose centre moves on a line through the cam's centre (a radial roller lifter); the
/// lobe's lift is that of the roller's centre. Source: Norton, Design of Machinery, ch. 8, roller
/// followers (from memory).
struct RollerContact {
    /// Between the lobe's push and the lifter's axis: tan = s' / (R_b + R_r + s); positive while
    /// opening. Radians.
    double pressure_angle_rad = 0.0;
    /// One over the radius of curvature of the roller centre's path (the pitch curve), 1/mm: with
    /// r = R_b + R_r + s it is (r² + 2 s'² − r s'') / (r² + s'²)^(3/2). Negative where hollow.
    double pitch_curvature_per_mm = 0.0;
    Vec2 centre_mm = Vec2::Zero();  ///< the roller's, in the cam's own turning frame
    Vec2 profile_mm = Vec2::Zero(); ///< the contact on the lobe, in that frame
};

/// `theta`: how far the cam has turned, the direction of the lifter's axis in the cam's frame
/// counted from its y axis towards x. The radii must be positive.
[[nodiscard]] RollerContact roller_contact(double base_circle_radius_mm, double roller_radius_mm,
                                           const LobeMotion& motion, CamAngle theta);

/// A roller over a whole lobe. Same source.
struct RollerSurvey {
    AtCamAngle opening_pressure_angle_rad; ///< the greatest while opening, ≥ 0
    AtCamAngle closing_pressure_angle_rad; ///< the greatest while closing, ≥ 0
    /// The least radius of the pitch curve where it is convex, mm. The lobe's own is smaller by the
    /// roller's radius.
    AtCamAngle least_pitch_radius_mm;
    double roller_radius_mm = 0.0;
    /// The least radius of the lobe where its flank is hollow, mm: the largest wheel that can grind
    /// it. Empty where nothing is hollow. The roller itself always fits: the path of its centre
    /// being smooth, the hollow is rounder than the roller by the path's own radius.
    std::optional<AtCamAngle> least_hollow_radius_mm;

    [[nodiscard]] double least_lobe_radius_mm() const {
        return least_pitch_radius_mm.value - roller_radius_mm;
    }
    /// The pitch curve turns tighter than the roller: the lobe would have a point or cross itself,
    /// and no lobe gives this roller this lift.
    [[nodiscard]] bool undercut() const { return least_lobe_radius_mm() <= 0.0; }
};

/// Errors: out_of_range (a base circle or roller radius not within 1 to 200 mm).
Result<RollerSurvey> survey_roller(const Lobe& lobe, double base_circle_radius_mm,
                                   double roller_radius_mm);

} // namespace rodway
