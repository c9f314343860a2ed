#include "core/engine/length_text.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(LengthText, IsTheShortestThatSaysItInItsUnit) {
    EXPECT_EQ(length_text(1.524, "in"), "0.06");
    EXPECT_EQ(length_text(1.524, "mm"), "1.524");
    EXPECT_EQ(length_text(0.254, "thou"), "10");
    EXPECT_EQ(length_text(-0.0254, "in"), "-0.001");
    EXPECT_EQ(length_text(0.0, "in"), "0");
    EXPECT_EQ(length_text(1e-9, "mm"), "0");
}

TEST(LengthText, SmallNumbersHaveNoExponent) {
    EXPECT_EQ(rounded_text(0.00001, 1e5), "0.00001");
    EXPECT_EQ(rounded_text(-0.00002, 1e5), "-0.00002");
    EXPECT_EQ(rounded_text(0.000014, 1e5), "0.00001");
}

} // namespace
} // namespace rodway
