#include "core/units/temperature.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// t_F = 1.8 t_C + 32 and T_K = t_C + 273.15 (NIST SP 811, App. B); -40 is the same on both.
TEST(Temperature, ConvertsWithItsZero) {
    EXPECT_DOUBLE_EQ(Temperature::degF(32.0).in_degC(), 0.0);
    EXPECT_NEAR(Temperature::degF(-40.0).in_degC(), -40.0, 1e-12);
    EXPECT_DOUBLE_EQ(Temperature::degC(100.0).in_degF(), 212.0);
    EXPECT_DOUBLE_EQ(Temperature::degC(25.0).in_K(), 298.15);
    EXPECT_DOUBLE_EQ(Temperature::K(273.15).in_degC(), 0.0);
    EXPECT_NEAR(Temperature::degF(77.0).in_degC(), 25.0, 1e-12); // SAE J1349's reference air
    EXPECT_LT(Temperature::degF(60.0), Temperature::degC(16.0));
}

} // namespace
} // namespace rodway
