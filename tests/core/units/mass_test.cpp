#include "core/units/mass.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// NIST SP 811, App. B: a pound (avoirdupois) is 4.535924E-01 kg, exactly 0.45359237; an ounce
// 2.834952E+01 g, printed to seven digits.
TEST(Mass, ConvertsByTheExactPound) {
    EXPECT_DOUBLE_EQ(Mass::lb(1.0).in_g(), 453.59237);
    EXPECT_NEAR(Mass::oz(1.0).in_g(), 28.34952, 5e-6);
    EXPECT_DOUBLE_EQ(Mass::oz(16.0).in_lb(), 1.0);
    EXPECT_DOUBLE_EQ(Mass::kg(0.5839).in_g(), 583.9);
    EXPECT_DOUBLE_EQ(Mass::g(2012.2).in_kg(), 2.0122);
    EXPECT_DOUBLE_EQ(Mass::g(Mass::oz(3.0).in_g()).in_oz(), 3.0);
}

// The rotating and half the reciprocating weight of a shared throw, as on a balance card.
TEST(Mass, AddsUp) {
    const Mass reciprocating =
        Mass::g(69.5) + Mass::g(583.9) + Mass::g(173.6) + Mass::g(4.8) + Mass::g(162.4);
    const Mass rotating = (Mass::g(459.6) + Mass::g(47.4)) * 2.0 + Mass::g(4.0);
    EXPECT_NEAR((reciprocating + rotating).in_g(), 2012.2, 1e-9);
    EXPECT_DOUBLE_EQ((-(rotating - rotating / 2.0)).in_g(), -509.0);
    EXPECT_LT(Mass::oz(15.9), Mass::lb(1.0));
}

} // namespace
} // namespace rodway
