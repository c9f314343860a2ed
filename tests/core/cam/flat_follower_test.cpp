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

} // namespace
} // namespace rodway
