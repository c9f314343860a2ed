#include "core/units/bounded.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rodway {
namespace {

constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();

TEST(Bounded, TheWorstCaseOfAFigureThatRisesWithOneInputAndFallsWithAnother) {
    const std::array<Bounded, 2> inputs{Bounded{10.0, 9.0, 12.0}, Bounded::between(4.0, 5.0)};
    const Bounded found =
        worst_case(inputs, [](const std::array<double, 2>& at) { return at[0] / at[1]; });
    EXPECT_DOUBLE_EQ(found.value, 10.0 / 4.5);
    EXPECT_DOUBLE_EQ(found.low, 9.0 / 5.0);
    EXPECT_DOUBLE_EQ(found.high, 12.0 / 4.0);
}

TEST(Bounded, ASignThatTurnsWithAnotherInputIsSeen) {
    // Rises with the first where the second is above 0, falls where it is below.
    const Bounded found =
        worst_case<2>({Bounded::between(1.0, 3.0), Bounded::between(-2.0, 5.0)},
                      [](const std::array<double, 2>& at) { return at[0] * at[1]; });
    EXPECT_DOUBLE_EQ(found.low, -6.0);
    EXPECT_DOUBLE_EQ(found.high, 15.0);
    EXPECT_DOUBLE_EQ(found.value, 3.0);
}

TEST(Bounded, ExactInputsGiveAnExactFigureAndAreTriedOnce) {
    int asked = 0;
    const Bounded found =
        worst_case<3>({Bounded::exactly(0.1), Bounded::exactly(0.2), Bounded{1.0, 0.5, 1.5}},
                      [&](const std::array<double, 3>& at) {
                          ++asked;
                          return at[0] + at[1] + at[2] * 0.0;
                      });
    EXPECT_TRUE(found.is_exact());
    EXPECT_EQ(found.value, 0.1 + 0.2);
    EXPECT_EQ(asked, 3); // the value and two corners, not nine
}

TEST(Bounded, LimitsHoldForAllThreeNumbers) {
    const Limits limits{0.0, 10.0, "mm"};
    EXPECT_FALSE(outside("deck", Bounded{5.0, 0.0, 10.0}, limits).has_value());
    for (const Bounded& bad : {Bounded{5.0, -0.1, 10.0}, Bounded{5.0, 0.0, 10.1}}) {
        const auto error = outside("deck", bad, limits, 3);
        ASSERT_TRUE(error.has_value());
        EXPECT_EQ(error->code, ErrorCode::out_of_range);
        EXPECT_EQ(error->field, "deck");
        EXPECT_EQ(error->line, 3);
        EXPECT_EQ(error->limits->high, 10.0);
    }
    EXPECT_EQ(outside("deck", Bounded{5.0, nan_value, 10.0}, limits)->code,
              ErrorCode::not_a_number);
    EXPECT_EQ(outside("deck", Bounded{5.0, 6.0, 7.0}, limits)->code, ErrorCode::order_wrong);
    EXPECT_EQ(outside("deck", Bounded{5.0, 3.0, 4.0}, limits)->code, ErrorCode::order_wrong);
}

} // namespace
} // namespace rodway
