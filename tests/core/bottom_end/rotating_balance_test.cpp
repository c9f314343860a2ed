#include "core/bottom_end/rotating_balance.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

Interval g(double value, double step = 0.1) {
    return Interval::around(value, step);
}

// Invented masses; by hand.
TEST(RotatingBalance, SaysWhatToTakeOffEachPart) {
    const auto spreads = spread_of_parts({{"piston", 1, g(584.2)},
                                          {"rod_big_end", 1, g(459.6)},
                                          {"piston", 2, g(583.9)},
                                          {"piston", 3, g(584.0)},
                                          {"rod_big_end", 2, g(461.0)},
                                          {"piston", 4, g(583.9)}});
    ASSERT_TRUE(spreads.ok());
    ASSERT_EQ(spreads->size(), 2u);
    const PartSpread& pistons = spreads->front();
    EXPECT_EQ(pistons.kind, "piston");
    ASSERT_EQ(pistons.parts.size(), 4u);
    EXPECT_EQ(pistons.parts[pistons.masses.least].cylinder, 2);
    EXPECT_NEAR(*pistons.masses.spread, 0.3, 1e-9);
    EXPECT_NEAR(pistons.parts[0].heavier_by_g.middle(), 0.3, 1e-9);
    EXPECT_NEAR(pistons.parts[0].heavier_by_g.low, 0.2, 1e-9);
    EXPECT_EQ(pistons.parts[1].heavier_by_g.high, 0.0);
    EXPECT_EQ(pistons.parts[3].heavier_by_g.low, 0.0); // as light, to a step
    EXPECT_TRUE(pistons.masses.odd.empty());
    EXPECT_EQ((*spreads)[1].kind, "rod_big_end");
    EXPECT_NEAR((*spreads)[1].parts[1].heavier_by_g.middle(), 1.4, 1e-9);
    EXPECT_EQ((*spreads)[1].masses.rule, OddOneOutRule::too_few);
}

TEST(RotatingBalance, APartFromAnotherSetIsTheOddOne) {
    std::vector<WeighedPart> parts;
    for (int cylinder = 1; cylinder <= 8; ++cylinder) {
        parts.push_back(
            {"piston", cylinder, g(cylinder == 6 ? 597.5 : 583.9 + 0.1 * (cylinder % 3))});
    }
    auto spreads = *spread_of_parts(parts);
    ASSERT_EQ(spreads[0].masses.odd.size(), 1u);
    EXPECT_EQ(spreads[0].parts[spreads[0].masses.odd[0].index].cylinder, 6);
    // Weighed again it is as the others: the last mass counts.
    parts.push_back({"piston", 6, g(583.9)});
    spreads = *spread_of_parts(parts);
    EXPECT_TRUE(spreads[0].masses.odd.empty());
    EXPECT_EQ(spreads[0].masses.count, 8u);
}

TEST(RotatingBalance, NamesWhatIsWrong) {
    EXPECT_EQ(spread_of_parts({}).error().code, ErrorCode::too_few_rows);
    EXPECT_EQ(spread_of_parts({{"pin", 1, g(173.6)}, {"pin", 2, {5.0, 4.0}}}).error().line, 2);
    EXPECT_EQ(spread_of_parts({{"pin", 1, g(1e6)}}).error().code, ErrorCode::out_of_range);
}

} // namespace
} // namespace rodway
