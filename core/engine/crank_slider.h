#pragma once

#include "core/base/result.h"
#include "core/geometry/frames.h"
#include "core/units/angle.h"

namespace rodway {

/// Angular speed of a crank: rad/s from revolutions per minute.
[[nodiscard]] double rad_per_s(double rpm);

/// A piston at one crank angle. Down, away from top dead centre, is positive. Derivatives are by
/// radian of crank: times rad/s, and its square, they are mm/s and mm/s².
struct PistonMotion {
    double from_top_mm = 0.0;
    double velocity_mm_per_rad = 0.0;
    double acceleration_mm_per_rad2 = 0.0;
};

/// A connecting rod at one crank angle. Its angle is counted from the cylinder's axis, positive
/// where the crank pin stands on the side to which it goes as it passes the top.
struct RodMotion {
    double angle_rad = 0.0;
    double velocity_rad_per_rad = 0.0;
    double acceleration_rad_per_rad2 = 0.0;
};

/// A point on the rod, in the plane of its motion: `x` across the cylinder, the way the crank pin
/// goes as it passes the top, `y` along the cylinder, away from the crank; origin on the crank's
/// axis.
struct RodPointMotion {
    Vec2 place_mm;
    Vec2 velocity_mm_per_rad;
    Vec2 acceleration_mm_per_rad2;
};

/// Crank, connecting rod and piston, exactly. Angles count from the piston's own top dead centre,
/// as a positive stop finds it. With a pin offset e, crank throw r and rod l:
///   l·sin φ = r·sin θ - e,   pin height z = r·cos θ + l·cos φ,
/// with θ counted from the crank pin's highest point; at top dead centre rod and throw are in line,
/// sin θ = e/(l + r). For e = 0 it is x = r·cos θ + √(l² - r²·sin² θ) (Heywood, Internal Combustion
/// Engine Fundamentals, eq. 2.5).
class CrankSlider {
  public:
    /// `stroke_mm`: twice the crank's throw, 10 to 1000. `connecting_rod_mm`: between centres, at
    /// least 0.75 strokes and at most 3000. `pin_offset_mm`: of the piston pin's path from the
    /// crank's axis, positive towards the side to which the crank pin goes as it passes the top; at
    /// most a fifth of the rod. Errors: not_a_number, out_of_range; the fields are "stroke",
    /// "connecting_rod", "pin_offset".
    static Result<CrankSlider> make(double stroke_mm, double connecting_rod_mm,
                                    double pin_offset_mm = 0.0);

    [[nodiscard]] PistonMotion piston(CrankAngle after_top) const;
    [[nodiscard]] RodMotion rod(CrankAngle after_top) const;
    /// `share` of the way from the crank pin, 0, to the piston pin, 1.
    [[nodiscard]] RodPointMotion on_rod(CrankAngle after_top, double share) const;

    /// Bottom dead centre, after top; 180 degrees unless the pin is offset.
    [[nodiscard]] CrankAngle bottom() const;
    /// Where the piston is fastest going down, and going up: the roots of its acceleration.
    [[nodiscard]] CrankAngle fastest_going_down() const;
    [[nodiscard]] CrankAngle fastest_going_up() const;

    /// From top to bottom; with an offset pin a little more than the stroke.
    [[nodiscard]] double travel_mm() const;
    /// Pin above the crank's axis at top dead centre.
    [[nodiscard]] double top_height_mm() const;
    /// 2·travel·rpm/60. Source: Heywood, eq. 2.9.
    [[nodiscard]] double mean_piston_speed_mm_per_s(double rpm) const;

  private:
    CrankSlider() = default;
    /// Of the crank pin from its own highest point.
    [[nodiscard]] double turned_rad(CrankAngle after_top) const;
    [[nodiscard]] CrankAngle acceleration_root(CrankAngle rising_from, CrankAngle to) const;

    double r_mm_ = 0.0; ///< crank throw
    double l_mm_ = 0.0; ///< connecting rod
    double e_mm_ = 0.0; ///< pin offset
    double top_rad_ = 0.0;
};

} // namespace rodway
