#pragma once

#include <array>
#include <optional>

namespace rodway {

/// The standard laws by which a follower rises from one dwell to the next. Source: Norton, Cam
/// Design and Manufacturing Handbook; Rothbart, Cam Design Handbook, App. B (both from memory).
enum class MotionLaw {
    constant_acceleration,
    simple_harmonic,
    cycloidal,
    polynomial_345,
    polynomial_4567,
    modified_sine,      ///< with sine ends of an eighth each
    modified_trapezoid, ///< with sine parts of an eighth
};
inline constexpr std::array all_motion_laws{
    MotionLaw::constant_acceleration, MotionLaw::simple_harmonic, MotionLaw::cycloidal,
    MotionLaw::polynomial_345,        MotionLaw::polynomial_4567, MotionLaw::modified_sine,
    MotionLaw::modified_trapezoid,
};

/// Lift and its derivatives by the fraction u of the rise, for a rise of 1. A rise of h over the
/// angle β has h times that lift, and h/β, h/β², h/β³ times these derivatives.
struct LawMotion {
    double lift = 0.0;
    double velocity = 0.0;
    double acceleration = 0.0;
    double jerk = 0.0;
};

/// At fraction u; before the rise all is zero, after it the lift is 1 and the rest zero. Where a
/// derivative jumps inside the rise it is the later value, at the ends the one inside.
[[nodiscard]] LawMotion law_motion(MotionLaw law, double u);

/// The greatest of each derivative's size, closed form. No jerk where the acceleration jumps: it is
/// infinite there.
struct LawPeaks {
    double velocity = 0.0;
    double acceleration = 0.0;
    std::optional<double> jerk;
};
[[nodiscard]] LawPeaks law_peaks(MotionLaw law);

/// Whether the acceleration is free of jumps from dwell to dwell, so that a lobe can be made of it.
[[nodiscard]] bool acceleration_is_continuous(MotionLaw law);

/// A flank for a flat tappet, whose face limits the velocity while its lobe may not turn hollow: a
/// short push (acceleration a sine squared over the share `push` of the rise), constant velocity,
/// then a long gentle nose (the share `nose`) whose deceleration grows by a quarter of a sine
/// squared over the share `rounding` of it and stays constant to the top. The acceleration is
/// continuous along the rise and starts at zero; at the top it isn't zero, so that such flanks make
/// a lobe only where rise and fall have the same angle and nothing dwells between. The form is this
/// project's own; its demo cams are made of it.
struct FlatTappetLaw {
    double push = 0.22;
    double nose = 0.50;
    double rounding = 0.30;

    /// As `law_motion`. Needs push > 0, 0 < rounding ≤ 1, nose > 0, push + nose ≤ 1 (asserted).
    [[nodiscard]] LawMotion at(double u) const;
    /// The constant velocity, the greatest: in rises for a whole rise angle.
    [[nodiscard]] double peak_velocity() const;
};

} // namespace rodway
