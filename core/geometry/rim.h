#pragma once

#include <optional>

namespace rodway {

/// Nearest place on the ellipse (x/a)² + (y/b)² = 1. Coordinates and distance in the unit of a and
/// b.
struct EllipseFoot {
    double x = 0.0;
    double y = 0.0;
    double distance = 0.0;
};

/// Point-to-ellipse distance, exact but for rounding. Needs a ≥ b > 0 and a point on or inside the
/// ellipse. Solves F(t) = (a·x/(t+a²))² + (b·y/(t+b²))² - 1 = 0 for its largest root by Newton's
/// method from the left, where F is convex and decreasing, so that it can't overshoot.
/// Source: Eberly, "Distance from a Point to an Ellipse" (Geometric Tools), from memory.
[[nodiscard]] EllipseFoot nearest_on_ellipse(double a, double b, double x, double y);

/// The other local minimum of the distance, across the long axis, where there is one.
[[nodiscard]] std::optional<EllipseFoot> second_nearest_on_ellipse(double a, double b, double x,
                                                                   double y);

} // namespace rodway
