#include "core/cam/flat_follower.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

/// s = 25·(1 - cos θ) mm, the lift of an eccentric circle.
LobeMotion eccentric(double theta) {
    return {25.0 * (1.0 - std::cos(theta)), 25.0 * std::sin(theta), 25.0 * std::cos(theta),
            -25.0 * std::sin(theta)};
}

// FF-2. Eccentric circle as an exact test: base circle 25 mm; curvature 50 mm at every angle, the
// contact 25·sin θ off the lifter's axis, the contact point at 60° (43.3012702, 0). Problem as
// published in a cam exercise, recomputed exactly. Tolerance 1e-9: asked for there; rounding is
// less.
TEST(FlatFollower, EccentricCircleIsACircle) {
    double reach = 0.0;
    for (int degree = 0; degree < 360; ++degree) {
        const double theta = radians(degree);
        const FlatFaceContact contact =
            flat_face_contact(25.0, eccentric(theta), CamAngle::deg(degree));
        EXPECT_NEAR(contact.lobe_radius_mm, 50.0, 1e-9);
        EXPECT_NEAR(contact.offset_mm, 25.0 * std::sin(theta), 1e-9);
        // Closed form: a circle of 50 mm about (0, -25), since s = 0 and offset 0 at θ = 0.
        EXPECT_NEAR((contact.profile_mm - Vec2(0.0, -25.0)).norm(), 50.0, 1e-9) << degree;
        reach = std::max(reach, std::abs(contact.offset_mm));
    }
    EXPECT_NEAR(reach, 25.0, 1e-9);
    const FlatFaceContact sixty =
        flat_face_contact(25.0, eccentric(radians(60.0)), CamAngle::deg(60.0));
    EXPECT_NEAR(sixty.profile_mm.x(), 43.3012702, 5e-8); // digits given
    EXPECT_NEAR(sixty.profile_mm.y(), 0.0, 1e-9);
}

// On the heel the contact is the base circle, straight under the lifter.
TEST(FlatFollower, OnTheHeelItTouchesTheBaseCircleUnderItsAxis) {
    const FlatFaceContact heel = flat_face_contact(14.2, LobeMotion{}, CamAngle::deg(30.0));
    EXPECT_EQ(heel.offset_mm, 0.0);
    EXPECT_DOUBLE_EQ(heel.lobe_radius_mm, 14.2);
    EXPECT_NEAR(heel.profile_mm.x(), 14.2 * 0.5, 1e-12);
    EXPECT_NEAR(heel.profile_mm.y(), 14.2 * std::sqrt(3.0) / 2.0, 1e-12);
}

Lobe law_lobe(MotionLaw law, double lift_mm, double rise_deg, double fall_deg) {
    return *Lobe::from_law(law, lift_mm, CamAngle::deg(rise_deg), CamAngle::deg(fall_deg));
}

// Closed form: a law's greatest velocity is its factor times h/β, half way along each flank.
TEST(FlatFaceSurvey, FindsTheWorstOfBothFlanks) {
    const auto survey =
        survey_flat_face(law_lobe(MotionLaw::polynomial_345, 9.0, 58.0, 74.0), 15.0);
    ASSERT_TRUE(survey.ok());
    // 1e-5: what the lobe's spline is true to.
    EXPECT_NEAR(survey->opening_offset_mm.value, 1.875 * 9.0 / radians(58.0), 2e-4);
    EXPECT_NEAR(survey->opening_offset_mm.at.in_deg(), -29.0, 0.02);
    EXPECT_NEAR(survey->closing_offset_mm.value, 1.875 * 9.0 / radians(74.0), 2e-4);
    EXPECT_NEAR(survey->closing_offset_mm.at.in_deg(), 37.0, 0.02);
    EXPECT_NEAR(survey->least_face_diameter_mm(), 2.0 * 1.875 * 9.0 / radians(58.0), 4e-4);
    // A face of 40 mm, a patch 0.3 mm to either side.
    EXPECT_NEAR(survey->edge_margin_mm(40.0), 20.0 - 1.875 * 9.0 / radians(58.0), 2e-4);
    EXPECT_NEAR(survey->edge_margin_mm(40.0, 0.3), 19.7 - 1.875 * 9.0 / radians(58.0), 2e-4);
    EXPECT_LT(survey->edge_margin_mm(30.0), 0.0);
}

TEST(FlatFaceSurvey, TellsAnUndercutLobe) {
    const Lobe lobe = law_lobe(MotionLaw::polynomial_4567, 9.0, 50.0, 70.0);
    const auto found = survey_flat_face(lobe, 15.0);
    ASSERT_TRUE(found.ok());
    // A second way: every hundredth of a degree. Tolerance: the curvature's own, times that
    // squared.
    double least = 1e9;
    double at = 0.0;
    for (double angle = -80.0; angle <= 80.0; angle += 0.01) {
        const double radius =
            flat_face_contact(15.0, lobe.at(CamAngle::deg(angle)), CamAngle::deg(angle))
                .lobe_radius_mm;
        if (radius < least) {
            least = radius;
            at = angle;
        }
    }
    EXPECT_NEAR(found->least_radius_mm.value, least, 1e-4);
    EXPECT_NEAR(found->least_radius_mm.at.in_deg(), at, 0.05);
    EXPECT_LT(found->least_radius_mm.at.in_deg(), 0.0); // on the shorter flank
    EXPECT_EQ(found->undercut(), least <= 0.0);
    // A base circle larger by what is missing is just not undercut, one a little smaller is.
    EXPECT_FALSE(survey_flat_face(lobe, 15.0 - least + 0.01)->undercut());
    EXPECT_TRUE(survey_flat_face(lobe, 15.0 - least - 0.01)->undercut());
}

TEST(FlatFaceSurvey, AnImpossibleBaseCircleIsRefused) {
    const Lobe lobe = law_lobe(MotionLaw::cycloidal, 9.0, 60.0, 60.0);
    for (const double radius : {0.0, -14.0, 201.0, std::nan("")}) {
        const auto survey = survey_flat_face(lobe, radius);
        ASSERT_FALSE(survey.ok());
        EXPECT_EQ(survey.error().code, ErrorCode::out_of_range);
    }
}

} // namespace
} // namespace rodway
