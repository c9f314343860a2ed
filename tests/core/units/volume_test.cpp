#include "core/units/volume.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// NIST SP 811, App. B: a cubic inch is 1.638706E-05 m^3, exactly 16.387064 cc; a US quart
// 9.463529E-04 m^3, printed to seven digits.
TEST(Volume, ConvertsByTheExactInch) {
    EXPECT_DOUBLE_EQ(Volume::cubic_inches(1.0).in_cc(), 25.4 * 25.4 * 25.4 / 1000.0);
    EXPECT_NEAR(Volume::us_quarts(1.0).in_cc(), 946.3529, 5e-5);
    EXPECT_DOUBLE_EQ(Volume::litres(5.735).in_cc(), 5735.0);
    EXPECT_DOUBLE_EQ(Volume::cc(500.0).in_litres(), 0.5);
    EXPECT_DOUBLE_EQ(Volume::us_quarts(4.0).in_cubic_inches(), 231.0);
    EXPECT_DOUBLE_EQ(Volume::cc(Volume::us_quarts(5.0).in_cc()).in_us_quarts(), 5.0);
}

// 4.000 x 3.480 in, eight cylinders: 349.847757904 cubic inches, 5732.97759903 cc, from
// (pi/4) bore^2 stroke.
TEST(Volume, GivesADisplacement) {
    const Volume engine = Volume::cubic_inches(349.847757904);
    EXPECT_NEAR(engine.in_cc(), 5732.97759903, 1e-8 * 5733.0);
    EXPECT_NEAR((engine / 8.0 + engine * 2.0 - engine).in_cc(), 5732.97759903 * 1.125, 1e-4);
    EXPECT_LT(-engine, Volume());
}

} // namespace
} // namespace rodway
