#include "core/cam/motion_law.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/base/assert.h"

namespace rodway {
namespace {

constexpr double pi = std::numbers::pi;

// The first half of each rise; the second is its mirror image.

LawMotion constant_acceleration(double u) {
    return {2.0 * u * u, 4.0 * u, 4.0, 0.0};
}

LawMotion simple_harmonic(double u) {
    const double s = std::sin(pi * u);
    const double c = std::cos(pi * u);
    return {(1.0 - c) / 2.0, pi / 2.0 * s, pi * pi / 2.0 * c, -pi * pi * pi / 2.0 * s};
}

LawMotion cycloidal(double u) {
    const double s = std::sin(2.0 * pi * u);
    const double c = std::cos(2.0 * pi * u);
    return {u - s / (2.0 * pi), 1.0 - c, 2.0 * pi * s, 4.0 * pi * pi * c};
}

LawMotion polynomial_345(double u) {
    return {u * u * u * (10.0 + u * (-15.0 + 6.0 * u)), u * u * (30.0 + u * (-60.0 + 30.0 * u)),
            u * (60.0 + u * (-180.0 + 120.0 * u)), 60.0 + u * (-360.0 + 360.0 * u)};
}

LawMotion polynomial_4567(double u) {
    const double square = u * u;
    return {square * square * (35.0 + u * (-84.0 + u * (70.0 - 20.0 * u))),
            square * u * (140.0 + u * (-420.0 + u * (420.0 - 140.0 * u))),
            square * (420.0 + u * (-1680.0 + u * (2100.0 - 840.0 * u))),
            u * (840.0 + u * (-5040.0 + u * (8400.0 - 4200.0 * u)))};
}

/// The quarter sine of acceleration, over an eighth of the rise, that both modified laws begin
/// with.
LawMotion sine_eighth(double peak, double u) {
    const double k = 4.0 * pi;
    const double s = std::sin(k * u);
    const double c = std::cos(k * u);
    return {peak / k * (u - s / k), peak / k * (1.0 - c), peak * s, peak * k * c};
}

LawMotion modified_sine(double u) {
    const double peak = 4.0 * pi * pi / (pi + 4.0);
    if (u < 0.125) {
        return sine_eighth(peak, u);
    }
    const LawMotion start = sine_eighth(peak, 0.125);
    const double k = 4.0 * pi / 3.0;
    const double s = std::sin(k * u + pi / 3.0);
    const double c = std::cos(k * u + pi / 3.0);
    return {start.lift + start.velocity * (u - 0.125) - peak / (k * k) * (s - 1.0),
            start.velocity - peak / k * c, peak * s, peak * k * c};
}

LawMotion modified_trapezoid(double u) {
    const double peak = 8.0 * pi / (pi + 2.0);
    if (u < 0.125) {
        return sine_eighth(peak, u);
    }
    const LawMotion start = sine_eighth(peak, 0.125);
    const double flat = std::min(u, 0.375) - 0.125;
    LawMotion motion{start.lift + flat * (start.velocity + peak * flat / 2.0),
                     start.velocity + peak * flat, peak, 0.0};
    if (u >= 0.375) {
        const double k = 4.0 * pi;
        const double past = u - 0.375;
        const double s = std::sin(k * past);
        const double c = std::cos(k * past);
        motion = {motion.lift + motion.velocity * past + peak / (k * k) * (1.0 - c),
                  motion.velocity + peak / k * s, peak * c, -peak * k * s};
    }
    return motion;
}

LawMotion first_half(MotionLaw law, double u) {
    switch (law) {
        case MotionLaw::constant_acceleration:
            return constant_acceleration(u);
        case MotionLaw::simple_harmonic:
            return simple_harmonic(u);
        case MotionLaw::cycloidal:
            return cycloidal(u);
        case MotionLaw::polynomial_345:
            return polynomial_345(u);
        case MotionLaw::polynomial_4567:
            return polynomial_4567(u);
        case MotionLaw::modified_sine:
            return modified_sine(u);
        case MotionLaw::modified_trapezoid:
            return modified_trapezoid(u);
    }
    RODWAY_ASSERT(false);
}

} // namespace

LawMotion law_motion(MotionLaw law, double u) {
    if (!(u >= 0.0)) {
        return {};
    }
    if (u > 1.0) {
        return {1.0, 0.0, 0.0, 0.0};
    }
    if (u < 0.5) {
        return first_half(law, u);
    }
    const LawMotion mirror = first_half(law, 1.0 - u);
    return {1.0 - mirror.lift, mirror.velocity, -mirror.acceleration, mirror.jerk};
}

LawPeaks law_peaks(MotionLaw law) {
    switch (law) {
        case MotionLaw::constant_acceleration:
            return {2.0, 4.0, {}};
        case MotionLaw::simple_harmonic:
            return {pi / 2.0, pi * pi / 2.0, {}};
        case MotionLaw::cycloidal:
            return {2.0, 2.0 * pi, 4.0 * pi * pi};
        case MotionLaw::polynomial_345:
            return {15.0 / 8.0, 10.0 / std::numbers::sqrt3, 60.0};
        case MotionLaw::polynomial_4567:
            return {35.0 / 16.0, 84.0 * std::sqrt(5.0) / 25.0, 52.5};
        case MotionLaw::modified_sine:
            return {4.0 * pi / (pi + 4.0), 4.0 * pi * pi / (pi + 4.0),
                    16.0 * pi * pi * pi / (pi + 4.0)};
        case MotionLaw::modified_trapezoid:
            return {2.0, 8.0 * pi / (pi + 2.0), 32.0 * pi * pi / (pi + 2.0)};
    }
    RODWAY_ASSERT(false);
}

bool acceleration_is_continuous(MotionLaw law) {
    return law != MotionLaw::constant_acceleration && law != MotionLaw::simple_harmonic;
}

LawMotion FlatTappetLaw::at(double u) const {
    RODWAY_ASSERT(push > 0.0 && nose > 0.0 && push + nose <= 1.0 && rounding > 0.0 &&
                  rounding <= 1.0);
    if (!(u >= 0.0)) {
        return {};
    }
    // Integrated for a push of 1 at its peak, then divided by the lift at the top.
    const double steady = push / 2.0; // velocity
    const double brake = steady / (nose * (1.0 - rounding / 2.0));
    const double reach = rounding * nose; // of the rounding
    const auto pushed = [&](double x) {
        const double k = 2.0 * pi / push;
        return LawMotion{(x * x / 2.0 - (1.0 - std::cos(k * x)) / (k * k)) / 2.0,
                         (x - std::sin(k * x) / k) / 2.0, (1.0 - std::cos(k * x)) / 2.0,
                         k / 2.0 * std::sin(k * x)};
    };
    const double nose_lift = pushed(push).lift + steady * (1.0 - nose - push);
    const auto rounded = [&](double x) {
        const double k = pi / reach;
        return LawMotion{nose_lift + steady * x -
                             brake / 2.0 * (x * x / 2.0 - (1.0 - std::cos(k * x)) / (k * k)),
                         steady - brake / 2.0 * (x - std::sin(k * x) / k),
                         -brake / 2.0 * (1.0 - std::cos(k * x)),
                         -brake / 2.0 * k * std::sin(k * x)};
    };
    const auto braked = [&](double x) {
        const LawMotion start = rounded(reach);
        const double past = x - reach;
        return LawMotion{start.lift + past * (start.velocity - brake * past / 2.0),
                         start.velocity - brake * past, -brake, 0.0};
    };
    const double top = braked(nose).lift;
    if (u > 1.0) {
        return {1.0, 0.0, 0.0, 0.0};
    }
    const double x = u - (1.0 - nose);
    const LawMotion here =
        x >= reach  ? braked(x)
        : x >= 0.0  ? rounded(x)
        : u >= push ? LawMotion{pushed(push).lift + steady * (u - push), steady, 0.0, 0.0}
                    : pushed(u);
    return {here.lift / top, here.velocity / top, here.acceleration / top, here.jerk / top};
}

double FlatTappetLaw::peak_velocity() const {
    return at(push).velocity;
}

} // namespace rodway
