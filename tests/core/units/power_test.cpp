#include "core/units/power.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// NIST SP 811, App. B: 550 foot-pounds-force a second are 7.456999E+02 W, a metric horsepower
// 7.354988E+02 W. Electric and boiler horsepowers are others.
TEST(Power, ConvertsTheMechanicalAndTheMetricHorsepower) {
    EXPECT_NEAR(Power::hp(1.0).in_kW(), 0.74569987158227022, 1e-15);
    EXPECT_DOUBLE_EQ(Power::metric_hp(1.0).in_kW(), 0.73549875);
    EXPECT_NEAR(Power::hp(1.0).in_metric_hp(), 1.01386966542, 1e-11);
    EXPECT_DOUBLE_EQ(Power::kW(Power::hp(442.0).in_kW()).in_hp(), 442.0);
    EXPECT_DOUBLE_EQ((Power::kW(3.0) + Power::kW(1.0) * 2.0 - Power::kW(4.0) / 4.0).in_kW(), 4.0);
    EXPECT_LT(-Power::kW(1.0), Power());
}

} // namespace
} // namespace rodway
