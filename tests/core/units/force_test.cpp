#include "core/units/force.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// NIST SP 811, App. B: a pound-force is 4.4482216152605 N exactly (printed 4.448222).
static_assert(Force::lbf(1.0).in_N() == 4.4482216152605);
static_assert(Force::N(4.4482216152605).in_lbf() == 1.0);
static_assert(Force().in_N() == 0.0);

TEST(Force, ComesBackFromPoundsWithinOneRounding) {
    for (const double value : {0.25, 76.0, 125.0, 220.0, 1387.5}) {
        EXPECT_DOUBLE_EQ(Force::lbf(value).in_lbf(), value);
    }
}

TEST(Force, ArithmeticKeepsTheUnit) {
    EXPECT_EQ(Force::N(3.0) + Force::N(2.0), Force::N(5.0));
    EXPECT_EQ(Force::N(3.0) - Force::N(5.0), -Force::N(2.0));
    EXPECT_EQ(Force::lbf(2.0) * 2.0, Force::lbf(4.0));
    EXPECT_EQ(Force::lbf(3.0) / 2.0, Force::lbf(1.5));
    EXPECT_LT(Force::N(4.0), Force::lbf(1.0));
    EXPECT_GT(Force::N(5.0), Force::lbf(1.0));
}

// NIST SP 811, App. B: 1 lbf/in is 175.12683524647638 N/m (from memory, recomputed).
// Tolerance: a rounding or two.
TEST(Force, ASpringsRateConvertsBothWays) {
    EXPECT_NEAR(spring_rate_N_per_mm(1.0), 0.17512683524647638, 1e-16);
    EXPECT_NEAR(spring_rate_lbf_per_inch(0.17512683524647638), 1.0, 1e-15);
    EXPECT_NEAR(spring_rate_lbf_per_inch(spring_rate_N_per_mm(358.0)), 358.0, 1e-12);
}

} // namespace
} // namespace rodway
