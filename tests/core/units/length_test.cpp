#include "core/units/length.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// NIST SP 811, App. B: an inch is 25.4 mm exactly.
static_assert(Length::inches(1.0).in_mm() == 25.4);
static_assert(Length::mm(25.4).in_inches() == 1.0);
static_assert(Length::inches(10.0) == Length::mm(254.0));
static_assert(Length().in_mm() == 0.0);

TEST(Length, ThousandthsAreThousandthsOfAnInch) {
    EXPECT_DOUBLE_EQ(Length::thou(10.0).in_mm(), 0.254);
    EXPECT_DOUBLE_EQ(Length::thou(10.0).in_inches(), 0.010);
    EXPECT_DOUBLE_EQ(Length::inches(0.0625).in_thou(), 62.5);
}

TEST(Length, ComesBackFromInchesWithinOneRounding) {
    for (const double value : {0.0001, 0.3125, 0.5625, 8.968198, 39.37007874015748}) {
        EXPECT_DOUBLE_EQ(Length::inches(value).in_inches(), value);
    }
}

TEST(Length, ArithmeticKeepsTheUnit) {
    EXPECT_EQ(Length::inches(1.0) + Length::mm(4.6), Length::mm(30.0));
    EXPECT_EQ(Length::mm(3.0) - Length::mm(5.0), -Length::mm(2.0));
    EXPECT_EQ(Length::mm(3.0) * 2.0, Length::mm(6.0));
    EXPECT_EQ(Length::mm(3.0) / 2.0, Length::mm(1.5));
    EXPECT_LT(Length::thou(1.0), Length::mm(0.0255));
    EXPECT_GT(Length::thou(1.0), Length::mm(0.0253));
}

} // namespace
} // namespace rodway
