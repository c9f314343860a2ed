#include "core/bottom_end/bobweight.h"

#include <gtest/gtest.h>

#include <limits>

namespace rodway {
namespace {

using Motion = PartMotion;
using Share = PartShare;

Interval g(double value, double step = 0.1) {
    return Interval::around(value, step);
}

/// A balance card in an article (chevyhiperformance.com 0906chp): "x2" beside big ends and bearings
/// is each of two rods.
std::vector<BobweightPart> card() {
    return {{"rings", g(69.5), Motion::reciprocating, Share::each_rod},
            {"piston", g(583.9), Motion::reciprocating, Share::each_rod},
            {"pin", g(173.6), Motion::reciprocating, Share::each_rod},
            {"locks", g(4.8), Motion::reciprocating, Share::each_rod},
            {"small_end", g(162.4), Motion::reciprocating, Share::each_rod},
            {"big_end", g(459.6), Motion::rotating, Share::each_rod},
            {"bearing", g(47.4), Motion::rotating, Share::each_rod},
            {"oil", g(4.0, 1.0), Motion::rotating, Share::each_throw}};
}

// Its sums by hand: 994.2 g up and down, 507.0 g round, and for a throw of two rods at 50 %
// 994.2 + 2·459.6 + 2·47.4 + 4 = 2012.2 g.
TEST(Bobweight, OfASharedThrow) {
    const auto weight = bobweight(card(), 2, 50.0);
    ASSERT_TRUE(weight.ok());
    EXPECT_NEAR(weight->reciprocating_g.middle(), 994.2, 1e-9);
    EXPECT_NEAR(weight->rotating_g.middle(), 507.0, 1e-9);
    EXPECT_NEAR(weight->each_throw_g.middle(), 4.0, 1e-9);
    EXPECT_NEAR(weight->bobweight_g.middle(), 2012.2, 1e-9);
    // Five parts at half of .1 g and two whole ones, twice; the oil to a gram.
    EXPECT_NEAR(weight->bobweight_g.width(), 2.0 * (5.0 * 0.05 + 2.0 * 0.1) + 1.0, 1e-9);
}

// By hand: 507.0 + 4 + .5·994.2, and with nothing or all of what goes up and down.
TEST(Bobweight, DependsOnTheThrowAndThePercentage) {
    EXPECT_NEAR(bobweight(card(), 1, 50.0)->bobweight_g.middle(), 1008.1, 1e-9);
    EXPECT_NEAR(bobweight(card(), 2, 0.0)->bobweight_g.middle(), 1018.0, 1e-9);
    EXPECT_NEAR(bobweight(card(), 2, 100.0)->bobweight_g.middle(), 3006.4, 1e-9);
    EXPECT_NEAR(bobweight(card(), 2, 36.6)->bobweight_g.middle(), 1018.0 + 0.366 * 1988.4, 1e-9);
    // The same "x2" read as one throw's total would halve it: that is the trap.
    auto once = card();
    once[5].share = once[6].share = Share::each_throw;
    EXPECT_NEAR(bobweight(once, 2, 50.0)->bobweight_g.middle(), 2012.2 - 507.0, 1e-9);
}

TEST(Bobweight, NamesWhatIsWrong) {
    EXPECT_EQ(bobweight({}, 2, 50.0).error().code, ErrorCode::too_few_rows);
    EXPECT_EQ(bobweight(card(), 0, 50.0).error().field, "rods_on_throw");
    EXPECT_EQ(bobweight(card(), 2, 101.0).error().field, "balance_percent");
    EXPECT_EQ(bobweight(card(), 2, -1.0).error().field, "balance_percent");
    auto parts = card();
    parts[2].mass_g = {std::numeric_limits<double>::quiet_NaN(), 1.0};
    EXPECT_EQ(bobweight(parts, 2, 50.0).error().field, "part");
    EXPECT_EQ(bobweight(parts, 2, 50.0).error().line, 3);
}

} // namespace
} // namespace rodway
