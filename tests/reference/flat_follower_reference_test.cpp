// Published geometry of the flat-faced follower. FF-1: Norton, Design of Machinery, ch. 8;
// Rothbart, Cam Design Handbook, ch. 6 (from memory). FF-2, the eccentric circle, stands in
// tests/core/cam/flat_follower_test.cpp.
#include <gtest/gtest.h>

#include <cmath>

#include "core/cam/flat_follower.h"
#include "core/units/length.h"

namespace rodway {
namespace {

Lobe law_lobe(MotionLaw law, double lift_in, double beta_deg) {
    return *Lobe::from_law(law, Length::inches(lift_in).in_mm(), CamAngle::deg(beta_deg),
                           CamAngle::deg(beta_deg));
}

// FF-1: what touches the face is the lobe's outline, so its tangent is square to the lifter's axis:
// the outline's derivative has no part along it, and is as long as the radius of curvature.
TEST(FlatFollowerReference, TheContactRunsAlongTheFace) {
    const Lobe lobe = law_lobe(MotionLaw::cycloidal, 0.350, 60.0);
    const double h = 1e-3;
    const double base = 30.0;
    for (double angle = -59.0; angle < 59.0; angle += 0.9) {
        const auto contact = [&](double deg) {
            return flat_face_contact(base, lobe.at(CamAngle::deg(deg)), CamAngle::deg(deg));
        };
        const Vec2 along =
            (contact(angle + h).profile_mm - contact(angle - h).profile_mm) / (2.0 * radians(h));
        const Vec2 axis(std::sin(radians(angle)), std::cos(radians(angle)));
        // 1e-4: central difference, h² of the lobe's jerk's derivative, and rounding over h.
        EXPECT_NEAR(along.dot(axis), 0.0, 1e-4);
        EXPECT_NEAR(std::abs(along.dot(Vec2(axis.y(), -axis.x()))),
                    std::abs(contact(angle).lobe_radius_mm), 1e-3);
    }
}

// FF-3: least face, twice the greatest ds/dθ. Cycloidal 2 × 0.668450761 in, 3-4-5 1.253345177 in.
// Norton, Design of Machinery, ch. 8 (from memory, recomputed). Tolerance 1e-5 relative: the lobe's
// spline; the law itself agrees to the digits stated.
TEST(FlatFollowerReference, LeastFaceOfARiseAndFall) {
    const auto cycloidal = survey_flat_face(law_lobe(MotionLaw::cycloidal, 0.350, 60.0), 40.0);
    EXPECT_NEAR(Length::mm(cycloidal->least_face_diameter_mm()).in_inches(), 1.336901522, 1.4e-5);
    const auto polynomial =
        survey_flat_face(law_lobe(MotionLaw::polynomial_345, 0.350, 60.0), 40.0);
    EXPECT_NEAR(Length::mm(polynomial->least_face_diameter_mm()).in_inches(), 1.253345177, 1.3e-5);
    EXPECT_NEAR(2.0 * law_peaks(MotionLaw::cycloidal).velocity * 0.350 / radians(60.0), 1.336901522,
                1e-8);
    EXPECT_NEAR(2.0 * law_peaks(MotionLaw::polynomial_345).velocity * 0.350 / radians(60.0),
                1.253345177, 1e-8);
}

// FF-4: a tappet of 0.842 in follows at most 0.421 in/rad, 0.0073478 in a cam degree (geometry, no
// margin). A lobe of exactly that lift rate uses the face up to its edge.
TEST(FlatFollowerReference, LiftRateLimitOfATappet) {
    EXPECT_NEAR(0.842 / 2.0 * radians(1.0), 0.0073478, 1e-7);
    const double beta = 60.0;
    const double rate_in_per_deg = 0.0073478;
    const double lift_in = rate_in_per_deg * beta / 2.0; // cycloidal: 2·h/β
    const auto survey = survey_flat_face(law_lobe(MotionLaw::cycloidal, lift_in, beta), 40.0);
    const double margin = survey->edge_margin_mm(Length::inches(0.842).in_mm());
    EXPECT_NEAR(Length::mm(margin).in_inches(), 0.0, 1e-5); // the digits stated, and the spline
    const auto faster =
        survey_flat_face(law_lobe(MotionLaw::cycloidal, 1.01 * lift_in, beta), 40.0);
    EXPECT_NEAR(Length::mm(faster->edge_margin_mm(Length::inches(0.842).in_mm())).in_inches(),
                -0.01 * 0.421, 2e-5);
}

// FF-5: the least base radius that keeps the lobe from being undercut, h 0.350 in, β 70°, one rise:
// R = −min(s + s''). Tolerance of the laws 1e-6 in as stated. Of the lobe 2e-4 relative: its spline
// rounds the acceleration; a rise alone isn't a lobe, so the fall is slower and takes no part.
TEST(FlatFollowerReference, LeastBaseRadius) {
    constexpr std::pair<MotionLaw, double> rows[] = {{MotionLaw::polynomial_345, 1.028169525},
                                                     {MotionLaw::cycloidal, 1.156210384},
                                                     {MotionLaw::polynomial_4567, 1.446765623}};
    const double beta = radians(70.0);
    for (const auto& [law, expected_in] : rows) {
        double least = 0.0;
        for (int look = 0; look <= 200000; ++look) {
            const LawMotion motion = law_motion(law, look / 200000.0);
            least = std::min(least, 0.350 * (motion.lift + motion.acceleration / (beta * beta)));
        }
        EXPECT_NEAR(-least, expected_in, 1e-6);
        const auto lobe = Lobe::from_law(law, Length::inches(0.350).in_mm(), CamAngle::deg(70.0),
                                         CamAngle::deg(110.0));
        const double base_mm = Length::inches(expected_in).in_mm();
        const auto survey = survey_flat_face(*lobe, base_mm);
        EXPECT_NEAR(survey->least_radius_mm.value, 0.0, 2e-4 * base_mm);
        EXPECT_LT(survey->least_radius_mm.at.in_deg(), 0.0);
        EXPECT_TRUE(survey_flat_face(*lobe, base_mm * 0.999)->undercut());
        EXPECT_FALSE(survey_flat_face(*lobe, base_mm * 1.001)->undercut());
    }
}

} // namespace
} // namespace rodway
