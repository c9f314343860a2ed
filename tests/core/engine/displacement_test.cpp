#include "core/engine/displacement.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace rodway {
namespace {

BoreAndStroke size_of(double bore_mm, double stroke_mm) {
    return {Bounded::exactly(bore_mm), Bounded::exactly(stroke_mm)};
}

// Arithmetic: a circle of 20/√π mm has 100 mm².
TEST(Displacement, IsTheBoresAreaTimesTheStroke) {
    const double bore_mm = 20.0 / std::sqrt(std::numbers::pi);
    EXPECT_NEAR(circle_mm2(bore_mm), 100.0, 1e-12);
    const auto one = swept_cc(size_of(bore_mm, 80.0));
    ASSERT_TRUE(one.ok());
    EXPECT_NEAR(one->value, 8.0, 1e-13);
    EXPECT_TRUE(one->is_exact());
    EXPECT_NEAR(displacement_cc(size_of(bore_mm, 80.0), 6)->value, 48.0, 1e-12);
}

TEST(Displacement, BoundsAreTheCornersOfBoreAndStroke) {
    const BoreAndStroke size{Bounded::between(99.0, 101.0), Bounded{80.0, 79.5, 80.25}};
    const auto one = swept_cc(size);
    ASSERT_TRUE(one.ok());
    const double quarter_pi = std::numbers::pi / 4.0;
    EXPECT_NEAR(one->value, quarter_pi * 100.0 * 100.0 * 80.0 / 1000.0, 1e-10);
    EXPECT_NEAR(one->low, quarter_pi * 99.0 * 99.0 * 79.5 / 1000.0, 1e-10);
    EXPECT_NEAR(one->high, quarter_pi * 101.0 * 101.0 * 80.25 / 1000.0, 1e-10);
    const auto eight = displacement_cc(size, 8);
    EXPECT_NEAR(eight->low, 8.0 * one->low, 1e-9);
    EXPECT_NEAR(eight->high, 8.0 * one->high, 1e-9);
}

TEST(Displacement, OfCylindersThatDiffer) {
    const auto sum = displacement_cc({size_of(100.0, 80.0), size_of(101.0, 80.0)});
    ASSERT_TRUE(sum.ok());
    EXPECT_NEAR(sum->value,
                swept_cc(size_of(100.0, 80.0))->value + swept_cc(size_of(101.0, 80.0))->value,
                1e-10);
}

TEST(Displacement, BadSizesAreErrorsThatNameThem) {
    EXPECT_EQ(swept_cc(size_of(4.0, 80.0)).error().field, "bore"); // inches as millimetres
    EXPECT_EQ(swept_cc(size_of(100.0, 3.5)).error().field, "stroke");
    EXPECT_EQ(swept_cc(size_of(std::numeric_limits<double>::quiet_NaN(), 80.0)).error().code,
              ErrorCode::not_a_number);
    EXPECT_EQ(displacement_cc(size_of(100.0, 80.0), 0).error().field, "cylinders");
    EXPECT_EQ(displacement_cc(std::vector<BoreAndStroke>{}).error().code, ErrorCode::too_few_rows);
    const auto second = displacement_cc({size_of(100.0, 80.0), size_of(100.0, 1.0)});
    EXPECT_EQ(second.error().line, 2);
}

} // namespace
} // namespace rodway
