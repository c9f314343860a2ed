#include "core/units/angle.h"

#include <gtest/gtest.h>

#include <numbers>
#include <type_traits>

namespace rodway {
namespace {

static_assert(!std::is_convertible_v<CamAngle, CrankAngle>);
static_assert(!std::is_convertible_v<CrankAngle, CamAngle>);
static_assert(!std::is_convertible_v<double, CamAngle> &&
              !std::is_convertible_v<double, CrankAngle>);

TEST(Angle, TheCrankTurnsTwiceAsFarAsItsCam) {
    EXPECT_EQ(cam_angle(CrankAngle::deg(720.0)), CamAngle::deg(360.0));
    EXPECT_EQ(crank_angle(CamAngle::deg(-54.5)), CrankAngle::deg(-109.0));
}

TEST(Angle, CrankAnglesComeBackIntoTheCycle) {
    const std::pair<double, double> cases[] = {
        {0.0, 0.0},    {719.5, 719.5}, {720.0, 0.0},     {-0.5, 719.5},   {-720.0, 0.0},
        {1440.0, 0.0}, {1500.0, 60.0}, {-1500.0, 660.0}, {7200.25, 0.25},
    };
    for (const auto& [turned, expected] : cases) {
        EXPECT_EQ(CrankAngle::deg(turned).in_cycle().in_deg(), expected) << turned;
    }
    // A tiny step back must not come out as 720 itself.
    const double just_before = CrankAngle::deg(-1e-17).in_cycle().in_deg();
    EXPECT_GE(just_before, 0.0);
    EXPECT_LT(just_before, 720.0);
}

TEST(Angle, ArithmeticAndRadians) {
    EXPECT_DOUBLE_EQ(CamAngle::deg(180.0).in_rad(), std::numbers::pi);
    EXPECT_DOUBLE_EQ(degrees(radians(12.5)), 12.5);
    EXPECT_EQ(CamAngle::deg(30.0) - CamAngle::deg(50.0), -CamAngle::deg(20.0));
    EXPECT_EQ(CrankAngle::deg(360.0) + CrankAngle::deg(106.0), CrankAngle::deg(466.0));
    EXPECT_LT(CrankAngle::deg(1.0), CrankAngle::deg(2.0));
}

} // namespace
} // namespace rodway
