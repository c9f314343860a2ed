#include "core/units/pressure.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// NIST SP 811, App. B: a pound-force per square inch is 6.894757E+03 Pa, an inch of mercury
// (conventional) 3.386389E+03 Pa.
TEST(Pressure, ConvertsAsPrinted) {
    EXPECT_NEAR(Pressure::psi(1.0).in_kPa(), 6.894757293168361, 1e-14);
    EXPECT_NEAR(Pressure::inHg(1.0).in_kPa(), 3.386389, 1e-12);
    EXPECT_DOUBLE_EQ(Pressure::bar(1.01325).in_kPa(), 101.325);
    EXPECT_DOUBLE_EQ(Pressure::kPa(99.0).in_bar(), 0.99);
    EXPECT_DOUBLE_EQ(Pressure::kPa(Pressure::psi(60.0).in_kPa()).in_psi(), 60.0);
}

// The dry air of SAE J1349, 99 kPa, is 29.2347 inches of conventional mercury.
TEST(Pressure, KnowsTheReferenceAir) {
    EXPECT_NEAR(Pressure::kPa(99.0).in_inHg(), 29.2346804, 5e-6); // the factor's seventh digit
    EXPECT_DOUBLE_EQ(
        (Pressure::kPa(3.0) + Pressure::kPa(1.0) * 2.0 - Pressure::kPa(4.0) / 4.0).in_kPa(), 4.0);
    EXPECT_LT(-Pressure::psi(1.0), Pressure());
}

} // namespace
} // namespace rodway
