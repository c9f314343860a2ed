#include "core/geometry/rim.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/assert.h"

namespace rodway {
namespace {

// Newton's method doubles the digits near the root; this many steps are never reached there, and
// from afar each step at least halves the distance to the root's pole.
constexpr int most_steps = 100;

// Millimetres neither overflow nor matter where they underflow; std::hypot takes its time.
double root_of_squares(double p, double q) {
    return std::sqrt(p * p + q * q);
}

EllipseFoot foot_at(double x, double y, double foot_x, double foot_y) {
    return {foot_x, foot_y, root_of_squares(foot_x - x, foot_y - y)};
}

} // namespace

EllipseFoot nearest_on_ellipse(double a, double b, double x, double y) {
    RODWAY_ASSERT(b > 0.0 && a >= b);
    const double x_abs = std::abs(x);
    const double y_abs = std::abs(y);
    const double sign_x = x < 0.0 ? -1.0 : 1.0;
    const double sign_y = y < 0.0 ? -1.0 : 1.0;
    const double long_excess = a * a - b * b;

    if (y_abs == 0.0) {
        if (a * x_abs < long_excess) {
            const double on_axis = a * a * x_abs / long_excess;
            const double beside = b * std::sqrt(std::max(0.0, 1.0 - (on_axis / a) * (on_axis / a)));
            return foot_at(x, y, sign_x * on_axis, sign_y * beside);
        }
        return foot_at(x, y, sign_x * a, 0.0);
    }

    // Work with t' = t + b², which is small and positive near the hard places. The root is right of
    // both of these: F there is at least 0. The second is the root itself for a circle.
    double t = std::max(b * y_abs, root_of_squares(a * x_abs, b * y_abs) - long_excess);
    for (int step = 0; step < most_steps; ++step) {
        const double from_pole_x = 1.0 / (t + long_excess);
        const double from_pole_y = 1.0 / t;
        const double across_x = a * x_abs * from_pole_x;
        const double across_y = b * y_abs * from_pole_y;
        const double squared_x = across_x * across_x;
        const double squared_y = across_y * across_y;
        const double half_slope = squared_x * from_pole_x + squared_y * from_pole_y;
        const double onward = (squared_x + squared_y - 1.0) / (2.0 * half_slope);
        if (!(onward > 0.0)) {
            break;
        }
        t += onward;
        // The next step's error is this one's, relative to t, squared.
        if (onward <= 1e-9 * t) {
            break;
        }
    }
    const double foot_x = a * a * x_abs / (t + long_excess);
    const double foot_y = b * b * y_abs / t;
    return foot_at(x, y, sign_x * foot_x, sign_y * foot_y);
}

std::optional<EllipseFoot> second_nearest_on_ellipse(double a, double b, double x, double y) {
    const double x_abs = std::abs(x);
    const double y_abs = std::abs(y);
    const double sign_x = x < 0.0 ? -1.0 : 1.0;
    const double sign_y = y < 0.0 ? -1.0 : 1.0;
    const double long_excess = a * a - b * b;

    if (y_abs == 0.0) {
        if (a * x_abs >= long_excess) {
            return std::nullopt;
        }
        const EllipseFoot first = nearest_on_ellipse(a, b, x, y);
        return EllipseFoot{first.x, -first.y, first.distance};
    }
    // Farther out than the ellipse's evolute, (a·x)^⅔ + (b·y)^⅔ = (a²-b²)^⅔, there is only one.
    if (std::max(a * x_abs, b * y_abs) > long_excess) {
        return std::nullopt;
    }
    // Here t' = t + b² runs in (-(a²-b²), 0); from the pole at 0 Newton's method walks left along
    // the convex branch to the root, if there is one.
    double t = -b * y_abs;
    for (int step = 0; step < most_steps; ++step) {
        if (t <= -long_excess) {
            return std::nullopt;
        }
        const double across_x = a * x_abs / (t + long_excess);
        const double across_y = b * y_abs / t;
        const double value = across_x * across_x + across_y * across_y - 1.0;
        const double slope =
            -2.0 * (across_x * across_x / (t + long_excess) + across_y * across_y / t);
        if (slope <= 0.0) {
            return std::nullopt;
        }
        const double next = t - value / slope;
        if (!(next < t) || t - next <= std::numeric_limits<double>::epsilon() * -t) {
            break;
        }
        t = next;
    }
    const double foot_x = a * a * x_abs / (t + long_excess);
    const double foot_y = b * b * y_abs / t;
    return foot_at(x, y, sign_x * foot_x, sign_y * foot_y);
}

} // namespace rodway
