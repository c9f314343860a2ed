#include "core/cam/callipered_lift.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace rodway {
namespace {

Interval to_a_hundredth(double mm) {
    return Interval::read(mm, mm, 0.01);
}

// pams-japan.com/diary/?p=25215: a lobe callipered across its sides makes 9.41 mm of lift; the
// flanks have already lifted .19 there, and the true lift is 9.79. The two sizes are made up, 9.41
// apart. Four readings to .01 leave .02 either way.
TEST(CalliperedLift, FlanksThatHaveRisenAlreadyHideSomeOfIt) {
    const auto lift = callipered_lift_mm(
        {to_a_hundredth(43.41), to_a_hundredth(34.00), to_a_hundredth(0.19), to_a_hundredth(0.19)});
    ASSERT_TRUE(lift.ok());
    EXPECT_NEAR(lift->middle(), 9.79, 1e-9);
    EXPECT_NEAR(lift->half_width(), 0.02, 1e-9);
    const auto as_callipered = callipered_lift_mm({to_a_hundredth(43.41), to_a_hundredth(34.00),
                                                   Interval::exactly(0.0), Interval::exactly(0.0)});
    EXPECT_NEAR(as_callipered->middle(), 9.41, 1e-9);
    EXPECT_FALSE(as_callipered->holds(9.79));
}

// The profile that a flat follower's lift belongs to: (Rb + s)·(sin, cos) + s'·(cos, -sin) (Norton,
// Design of Machinery, ch. 8, from memory). Callipers over its points, 0.05 degrees apart, each no
// further than ρ·(0.025°)²/2 from the true edge: 1e-5 mm.
TEST(CalliperedLift, IsThatOfAFlatFollowersLobeWhoseProfileIsMeasured) {
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 6.0, CamAngle::deg(105.0), CamAngle::deg(125.0));
    ASSERT_TRUE(lobe.ok());
    constexpr double base_radius_mm = 20.0;
    double left = 0.0;
    double right = 0.0;
    double top = 0.0;
    double bottom = 0.0;
    for (int at = -3600; at < 3600; ++at) {
        const CamAngle angle = CamAngle::deg(0.05 * at);
        const LobeMotion motion = lobe->at(angle);
        const double s = std::sin(angle.in_rad());
        const double c = std::cos(angle.in_rad());
        const double x = (base_radius_mm + motion.lift) * s + motion.velocity * c;
        const double y = (base_radius_mm + motion.lift) * c - motion.velocity * s;
        left = std::min(left, x);
        right = std::max(right, x);
        bottom = std::min(bottom, y);
        top = std::max(top, y);
    }
    const RisenFlanks risen = risen_at_sides(*lobe);
    EXPECT_GT(risen.closing_mm, risen.opening_mm);
    EXPECT_GT(risen.opening_mm, 0.01) << "the flanks are long enough to be felt";
    const auto lift = callipered_lift_mm(
        {Interval::exactly(top - bottom), Interval::exactly(right - left),
         Interval::exactly(risen.opening_mm), Interval::exactly(risen.closing_mm)});
    ASSERT_TRUE(lift.ok());
    EXPECT_NEAR(lift->middle(), 6.0, 5e-5);
    EXPECT_LT(top - bottom - (right - left), 6.0 - 0.05);
}

TEST(CalliperedLift, BadReadingsAreNamed) {
    const Interval size = Interval::exactly(40.0);
    const Interval none = Interval::exactly(0.0);
    EXPECT_EQ(callipered_lift_mm({none, size, none, none}).error().field, "over_nose");
    EXPECT_EQ(callipered_lift_mm({size, {41.0, 40.0}, none, none}).error().field, "across_sides");
    EXPECT_EQ(callipered_lift_mm({size, size, {-1.0, 0.0}, none}).error().field, "opening_risen");
    EXPECT_EQ(callipered_lift_mm({size, size, none, {0.0, std::nan("")}}).error().field,
              "closing_risen");
}

} // namespace
} // namespace rodway
