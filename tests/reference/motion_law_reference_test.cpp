// The motion laws' published factors. Source of CM-1 to CM-5 and CM-7: Norton, Cam Design and
// Manufacturing Handbook; Rothbart, Cam Design Handbook, App. B (both from memory, recomputed).
// CM-6: constants 0.43990085, 5.5279571 and 69.4663577 as printed in public course code,
// recomputed. CM-8 to CM-10 and CM-12: arithmetic on those laws. CM-11: the law as asked in a
// public examination. Tolerance 1e-9 relative: the digits stated; the exact forms agree to
// rounding.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/cam/lobe.h"
#include "core/cam/motion_law.h"
#include "core/units/length.h"

namespace rodway {
namespace {

constexpr double pi = std::numbers::pi;

void expect_close(double found, double expected, double relative = 1e-9) {
    EXPECT_NEAR(found, expected, relative * std::max(1.0, std::abs(expected)));
}

struct Row {
    const char* id;
    MotionLaw law;
    double velocity;
    double acceleration;
    double jerk; ///< 0: infinite, or not among `law_peaks` since the acceleration jumps
};
constexpr Row rows[] = {
    {"CM-1", MotionLaw::constant_acceleration, 2.0, 4.0, 0.0},
    {"CM-2", MotionLaw::simple_harmonic, 1.570796327, 4.934802201, 0.0},
    {"CM-3", MotionLaw::cycloidal, 2.0, 6.283185307, 39.47841760},
    {"CM-4", MotionLaw::polynomial_345, 1.875, 5.773502692, 60.0},
    {"CM-5", MotionLaw::polynomial_4567, 2.1875, 7.513188404, 52.5},
    {"CM-6", MotionLaw::modified_sine, 1.759603386, 5.527957071, 69.46635729},
    {"CM-7", MotionLaw::modified_trapezoid, 2.0, 4.888123763, 61.42597481},
};

TEST(MotionLawReference, PeakFactors) {
    for (const Row& row : rows) {
        SCOPED_TRACE(row.id);
        const LawPeaks peaks = law_peaks(row.law);
        expect_close(peaks.velocity, row.velocity);
        expect_close(peaks.acceleration, row.acceleration);
        ASSERT_EQ(peaks.jerk.has_value(), row.jerk > 0.0);
        if (peaks.jerk) {
            expect_close(*peaks.jerk, row.jerk);
        }
        // The motion itself has them: the velocity's in the middle.
        expect_close(law_motion(row.law, 0.5).velocity, row.velocity);
    }
}

TEST(MotionLawReference, WhereThePeaksStand) {
    using enum MotionLaw;
    expect_close(law_motion(constant_acceleration, 0.2).acceleration, 4.0);
    expect_close(law_motion(simple_harmonic, 0.0).acceleration, 4.934802201); // a step at the ends
    expect_close(law_motion(simple_harmonic, 0.5).jerk, -15.50313834);
    expect_close(law_motion(polynomial_345, 0.2113248654).acceleration, 5.773502692);
    expect_close(law_motion(polynomial_345, 0.0).jerk, 60.0);
    expect_close(law_motion(polynomial_345, 1.0).jerk, 60.0);
    expect_close(law_motion(polynomial_345, 0.5).jerk, -30.0);
    expect_close(law_motion(polynomial_4567, 0.2763932023).acceleration, 7.513188404);
    expect_close(law_motion(polynomial_4567, 0.5).jerk, -52.5);
    expect_close(law_motion(polynomial_4567, 0.1127016654).jerk, 42.0);
    expect_close(law_motion(modified_sine, 0.125).acceleration, 5.527957071);
    expect_close(law_motion(modified_sine, 0.0).jerk, 69.46635729);
    expect_close(law_motion(modified_sine, 0.5).jerk, -23.15545243);
    expect_close(law_motion(modified_trapezoid, 0.25).acceleration, 4.888123763);
    expect_close(law_motion(modified_trapezoid, 0.0).jerk, 61.42597481);
    expect_close(law_motion(modified_trapezoid, 0.5).velocity, 2.0);
    // The constants as the course code prints them.
    EXPECT_NEAR(law_peaks(modified_sine).velocity / 4.0, 0.43990085, 5e-9);
    EXPECT_NEAR(*law_peaks(modified_sine).jerk, 69.4663577, 5e-7);
}

TEST(MotionLawReference, ValuesAtAQuarter) {
    const auto expect_motion = [](MotionLaw law, const LawMotion& expected) {
        const LawMotion found = law_motion(law, 0.25);
        expect_close(found.lift, expected.lift);
        expect_close(found.velocity, expected.velocity);
        expect_close(found.acceleration, expected.acceleration);
        expect_close(found.jerk, expected.jerk);
    };
    expect_motion(MotionLaw::cycloidal, {0.0908450569081, 1.0, 6.283185307, 0.0});      // CM-8
    expect_motion(MotionLaw::polynomial_345, {0.103515625, 1.0546875, 5.625, -7.5});    // CM-9
    expect_motion(MotionLaw::polynomial_4567, {0.070556640625, 0.9228515625, 7.3828125, // CM-10
                                               9.84375});
}

// CM-11: s = (h/2)(1 − cos(πθ/β)), so the jerk is −(h/2)(πω/β)³ sin(πθ/β).
TEST(MotionLawReference, SimpleHarmonicJerkAllAlongTheRise) {
    const double h = 8.0;
    const double beta = radians(70.0);
    const double omega = 314.0;
    for (double theta = 0.01; theta < beta; theta += 0.05) {
        const double expected =
            -h / 2.0 * std::pow(pi * omega / beta, 3) * std::sin(pi * theta / beta);
        const double found = law_motion(MotionLaw::simple_harmonic, theta / beta).jerk * h *
                             std::pow(omega / beta, 3);
        EXPECT_NEAR(found, expected, 1e-9 * std::abs(expected));
    }
}

struct Worked {
    MotionLaw law;
    double per_rad_in;    ///< in/rad
    double velocity_in_s; ///< in/s
    double acceleration_in_s2;
};
constexpr Worked worked[] = {
    {MotionLaw::polynomial_345, 0.626672588, 196.875, 181865.334795},
    {MotionLaw::cycloidal, 0.668450761, 210.0, 197920.337176},
    {MotionLaw::polynomial_4567, 0.731118020, 229.6875, 236665.434739},
};

// CM-12: h 0.350 in, β 60°, cam at 3000 rpm.
TEST(MotionLawReference, WorkedCase) {
    const double beta = radians(60.0);
    const double omega = 3000.0 * 2.0 * pi / 60.0;
    for (const Worked& row : worked) {
        const LawPeaks peaks = law_peaks(row.law);
        expect_close(peaks.velocity * 0.350 / beta, row.per_rad_in);
        expect_close(peaks.velocity * 0.350 / beta * omega, row.velocity_in_s);
        expect_close(peaks.acceleration * 0.350 / (beta * beta) * omega * omega,
                     row.acceleration_in_s2);
    }
}

struct Greatest {
    double velocity = 0.0;
    double acceleration = 0.0;
    double jerk = 0.0;
};

/// Over the opening flank, as factors of h/β. Jerk only where the law's own doesn't jump within
/// `seam` of the rise.
Greatest through_lobe(const Lobe& lobe, double h_mm, double beta_deg) {
    Greatest found;
    constexpr double seam = 0.025; // four steps of the lobe's spline
    const double beta = radians(beta_deg);
    for (double u = 0.0; u <= 1.0; u += 0.0005) {
        const LobeMotion motion = lobe.at(CamAngle::deg((u - 1.0) * beta_deg));
        found.velocity = std::max(found.velocity, motion.velocity / h_mm * beta);
        found.acceleration =
            std::max(found.acceleration, std::abs(motion.acceleration) / h_mm * beta * beta);
        const bool jumps = u < seam || u > 1.0 - seam || std::abs(u - 0.125) < seam ||
                           std::abs(u - 0.375) < seam || std::abs(u - 0.625) < seam ||
                           std::abs(u - 0.875) < seam;
        if (!jumps) {
            found.jerk = std::max(found.jerk, std::abs(motion.jerk) / h_mm * beta * beta * beta);
        }
    }
    return found;
}

/// The greatest jerk of the law itself over the same places.
double jerk_between_seams(MotionLaw law) {
    double greatest = 0.0;
    constexpr double seam = 0.025;
    for (double u = 0.0; u <= 1.0; u += 0.0005) {
        const bool jumps = u < seam || u > 1.0 - seam || std::abs(u - 0.125) < seam ||
                           std::abs(u - 0.375) < seam || std::abs(u - 0.625) < seam ||
                           std::abs(u - 0.875) < seam;
        if (!jumps) {
            greatest = std::max(greatest, std::abs(law_motion(law, u).jerk));
        }
    }
    return greatest;
}

// Through the lobe, whose spline has 160 steps a flank. Tolerances: velocity 1e-5, acceleration
// 5e-4 (a spline rounds the corner of a law's acceleration over a step), jerk between its jumps
// 2e-3.
TEST(MotionLawReference, LobesOfTheLawsHaveTheirFactors) {
    double worst[3] = {};
    for (const Row& row : rows) {
        SCOPED_TRACE(row.id);
        const double h = 9.0;
        for (const auto& [rise, fall, dwell] :
             {std::array{60.0, 60.0, 0.0}, {55.0, 80.0, 0.0}, {70.0, 62.0, 12.0}}) {
            const auto lobe = Lobe::from_law(row.law, h, CamAngle::deg(rise), CamAngle::deg(fall),
                                             CamAngle::deg(dwell));
            if (row.jerk == 0.0) {
                ASSERT_FALSE(lobe.ok());
                EXPECT_EQ(lobe.error().code, ErrorCode::not_a_choice);
                continue;
            }
            ASSERT_TRUE(lobe.ok());
            EXPECT_NEAR(lobe->full_lift_mm(), h, 1e-6 * h);
            Greatest found;
            if (dwell == 0.0) {
                found = through_lobe(*lobe, h, rise);
                EXPECT_NEAR(found.velocity, row.velocity, 1e-5 * row.velocity);
                EXPECT_NEAR(found.acceleration, row.acceleration, 5e-4 * row.acceleration);
                const double jerk = jerk_between_seams(row.law);
                EXPECT_NEAR(found.jerk, jerk, 2e-3 * jerk);
                worst[0] = std::max(worst[0], std::abs(found.velocity / row.velocity - 1.0));
                worst[1] =
                    std::max(worst[1], std::abs(found.acceleration / row.acceleration - 1.0));
                worst[2] = std::max(worst[2], std::abs(found.jerk / jerk - 1.0));
            }
            // The lift all the way, dwell included. 1e-5 of it: the spline's rounding of corners.
            for (double angle = -100.0; angle <= 110.0; angle += 0.37) {
                const double past = std::max(0.0, std::abs(angle) - dwell / 2.0);
                const double u = 1.0 - past / (angle < 0.0 ? rise : fall);
                EXPECT_NEAR(lobe->lift_mm(CamAngle::deg(angle)), h * law_motion(row.law, u).lift,
                            1e-5 * h)
                    << angle;
            }
        }
    }
    std::cout << "worst through the lobe: velocity " << worst[0] << ", acceleration " << worst[1]
              << ", jerk between its jumps " << worst[2] << '\n';
}

} // namespace
} // namespace rodway
