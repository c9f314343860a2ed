#include "core/cam/roller_follower.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace rodway {
namespace {

/// An eccentric circle as a lobe: its centre `offset` from the cam's; closed forms.
struct EccentricCircle {
    double radius = 20.0;
    double offset = 5.0;
    double roller = 10.0;

    [[nodiscard]] double base() const { return radius - offset; }
    /// The roller's centre stands on the pitch circle about (0, offset): its height, at an angle
    /// counted from the nose, and the height's derivatives (of e·cos θ + √(ρ² − e²·sin² θ)).
    [[nodiscard]] LobeMotion at(double theta) const {
        const double pitch = radius + roller;
        const double s = std::sin(theta);
        const double c = std::cos(theta);
        const double root = std::sqrt(pitch * pitch - offset * offset * s * s);
        const double e2 = offset * offset;
        LobeMotion motion;
        motion.lift = offset * c + root - base() - roller;
        motion.velocity = -offset * s - e2 * s * c / root;
        motion.acceleration = -offset * c - e2 * (c * c - s * s) / root -
                              e2 * e2 * s * s * c * c / (root * root * root);
        return motion;
    }
};

// Norton, Design of Machinery, ch. 8 (from memory), on the one lobe whose answers are closed form:
// the pitch curve is a circle of R + R_r, the lobe one of R. Tolerance 1e-9: rounding.
TEST(RollerFollower, EccentricCircleIsACircle) {
    const EccentricCircle circle;
    const Vec2 centre(0.0, circle.offset);
    double steepest = 0.0;
    for (int degree = 0; degree < 360; ++degree) {
        const double theta = radians(degree);
        const RollerContact contact =
            roller_contact(circle.base(), circle.roller, circle.at(theta), CamAngle::deg(degree));
        EXPECT_NEAR(1.0 / contact.pitch_curvature_per_mm, 30.0, 1e-9) << degree;
        EXPECT_NEAR((contact.centre_mm - centre).norm(), 30.0, 1e-9) << degree;
        EXPECT_NEAR((contact.profile_mm - centre).norm(), 20.0, 1e-9) << degree;
        // Sine rule in the triangle of the two centres and the roller: sin φ = e·sin θ/(R + R_r);
        // the lobe opens while the nose comes nearer.
        EXPECT_NEAR(std::sin(contact.pressure_angle_rad), -5.0 * std::sin(theta) / 30.0, 1e-12);
        steepest = std::max(steepest, std::abs(contact.pressure_angle_rad));
    }
    EXPECT_NEAR(steepest, std::asin(5.0 / 30.0), 1e-12);
}

TEST(RollerFollower, OnTheHeelItTouchesTheBaseCircleUnderItsAxis) {
    const RollerContact heel = roller_contact(15.0, 9.0, LobeMotion{}, CamAngle::deg(30.0));
    EXPECT_EQ(heel.pressure_angle_rad, 0.0);
    EXPECT_NEAR(heel.pitch_curvature_per_mm, 1.0 / 24.0, 1e-15);
    EXPECT_NEAR(heel.profile_mm.x(), 15.0 * 0.5, 1e-12);
    EXPECT_NEAR(heel.profile_mm.y(), 15.0 * std::sqrt(3.0) / 2.0, 1e-12);
}

// On any lobe: the roller touches where its distance to the centre's path is its radius, and the
// path's curvature is what three of its points say (the circle through them).
TEST(RollerFollower, CurvatureIsThatOfTheCircleThroughThreePlaces) {
    const std::uint64_t seed = 88;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    const double h = 0.02;
    for (int time = 0; time < 30; ++time) {
        const auto lobe = Lobe::from_law(MotionLaw::polynomial_4567, 6.0 + 5.0 * share(random),
                                         CamAngle::deg(55.0 + 20.0 * share(random)),
                                         CamAngle::deg(55.0 + 20.0 * share(random)));
        const double base = 12.0 + 8.0 * share(random);
        const double roller = 7.0 + 5.0 * share(random);
        for (double angle = -50.0; angle <= 50.0; angle += 7.3) {
            const auto contact = [&](double deg) {
                return roller_contact(base, roller, lobe->at(CamAngle::deg(deg)),
                                      CamAngle::deg(deg));
            };
            const Vec2 a = contact(angle - h).centre_mm;
            const Vec2 b = contact(angle).centre_mm;
            const Vec2 c = contact(angle + h).centre_mm;
            const Vec2 ab = b - a;
            const Vec2 bc = c - b;
            // Clockwise about the cam as the angle grows: convex turns right.
            const double curvature = -2.0 * (ab.x() * bc.y() - ab.y() * bc.x()) /
                                     (ab.norm() * bc.norm() * (c - a).norm());
            // h² of the curve's fourth derivative.
            EXPECT_NEAR(contact(angle).pitch_curvature_per_mm, curvature, 2e-5);
            EXPECT_NEAR((contact(angle).profile_mm - b).norm(), roller, 1e-12);
            EXPECT_LT(contact(angle).profile_mm.norm(), b.norm());
            EXPECT_NEAR((contact(angle).profile_mm - b).dot(c - a), 0.0, 1e-4);
        }
    }
}

TEST(RollerSurvey, FindsTheWorstOfBothFlanks) {
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(55.0), CamAngle::deg(72.0));
    const auto survey = survey_roller(*lobe, 14.0, 9.0);
    ASSERT_TRUE(survey.ok());
    // A second way: every hundredth of a degree through the contact.
    double opening = 0.0;
    double closing = 0.0;
    double tightest = 0.0;
    double hollow = 1.0;
    for (double angle = -75.0; angle <= 90.0; angle += 0.01) {
        const RollerContact contact =
            roller_contact(14.0, 9.0, lobe->at(CamAngle::deg(angle)), CamAngle::deg(angle));
        opening = std::max(opening, contact.pressure_angle_rad);
        closing = std::max(closing, -contact.pressure_angle_rad);
        tightest = std::max(tightest, contact.pitch_curvature_per_mm);
        hollow = std::min(hollow, contact.pitch_curvature_per_mm);
    }
    EXPECT_NEAR(survey->opening_pressure_angle_rad.value, opening, 1e-7);
    EXPECT_NEAR(survey->closing_pressure_angle_rad.value, closing, 1e-7);
    EXPECT_GT(survey->opening_pressure_angle_rad.value, survey->closing_pressure_angle_rad.value);
    EXPECT_LT(survey->opening_pressure_angle_rad.at.in_deg(), 0.0);
    EXPECT_GT(survey->closing_pressure_angle_rad.at.in_deg(), 0.0);
    EXPECT_NEAR(survey->least_pitch_radius_mm.value, 1.0 / tightest, 1e-3);
    EXPECT_NEAR(survey->least_lobe_radius_mm(), 1.0 / tightest - 9.0, 1e-3);
    ASSERT_LT(hollow, 0.0);
    ASSERT_TRUE(survey->least_hollow_radius_mm.has_value());
    // The lobe's hollow is the path's, rounder by the roller.
    EXPECT_NEAR(survey->least_hollow_radius_mm->value, -1.0 / hollow + 9.0, 1e-2);
    EXPECT_EQ(survey->undercut(), 1.0 / tightest <= 9.0);
}

TEST(RollerSurvey, ALargeRollerUndercutsATightNose) {
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(50.0), CamAngle::deg(50.0));
    const auto small = survey_roller(*lobe, 20.0, 5.0);
    const auto large = survey_roller(*lobe, 8.0, 17.0); // the same path of the centre
    EXPECT_NEAR(small->least_pitch_radius_mm.value, large->least_pitch_radius_mm.value, 1e-9);
    ASSERT_GT(small->least_pitch_radius_mm.value, 5.0);
    ASSERT_LT(small->least_pitch_radius_mm.value, 17.0);
    EXPECT_FALSE(small->undercut());
    EXPECT_TRUE(large->undercut());
}

TEST(RollerSurvey, AGentleLobeHasNoHollow) {
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 1.0, CamAngle::deg(90.0), CamAngle::deg(90.0));
    EXPECT_FALSE(survey_roller(*lobe, 20.0, 9.0)->least_hollow_radius_mm.has_value());
}

TEST(RollerSurvey, ImpossibleRadiiAreRefusedByName) {
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(60.0), CamAngle::deg(60.0));
    for (const double radius : {0.0, -14.0, 201.0, std::nan("")}) {
        EXPECT_EQ(survey_roller(*lobe, radius, 9.0).error().field, "base_circle_radius");
        EXPECT_EQ(survey_roller(*lobe, 14.0, radius).error().field, "roller_radius");
    }
}

} // namespace
} // namespace rodway
