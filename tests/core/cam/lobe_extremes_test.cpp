#include "core/cam/lobe_extremes.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

TEST(LobeExtremes, FindsSharpAndSmoothMinimaBetweenTheLooks) {
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(61.3), CamAngle::deg(47.9));
    // A corner where the closing flank passes 5 mm, which a parabola through looks would miss.
    const AtCamAngle corner = least_over_lobe(*lobe, [](const LobeMotion& motion) {
        return std::abs(motion.lift - 5.0) + (motion.velocity > 0.0 ? 1.0 : 0.0);
    });
    EXPECT_NEAR(corner.at.in_deg(), lobe->at_lift(5.0).closing.in_deg(), 1e-6);
    EXPECT_NEAR(corner.value, 0.0, 1e-6);
    // Closed form: half way along the opening flank velocity is greatest. 1e-5: the lobe's spline.
    const AtCamAngle opening =
        least_over_lobe(*lobe, [](const LobeMotion& motion) { return -motion.velocity; });
    EXPECT_NEAR(opening.value, -2.0 * 9.0 / radians(61.3), 2e-4);
    EXPECT_NEAR(opening.at.in_deg(), -61.3 / 2.0, 1e-2);
}

TEST(LobeExtremes, TheHeelCounts) {
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(60.0), CamAngle::deg(60.0));
    EXPECT_NEAR(least_over_lobe(*lobe, [](const LobeMotion& motion) { return motion.lift; }).value,
                0.0, 1e-5);
}

} // namespace
} // namespace rodway
