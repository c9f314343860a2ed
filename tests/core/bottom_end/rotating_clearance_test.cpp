#include "core/bottom_end/rotating_clearance.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/length.h"

namespace rodway {
namespace {

using Pair = RotatingPair;

Interval in(double value, double step = 0.001) {
    return Interval::around(Length::inches(value).in_mm(), Length::inches(step).in_mm());
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}

// Invented; .050 in is common practice, no source.
TEST(RotatingClearance, NamesTheSmallestOfEachPairAndWhere) {
    const auto found =
        rotating_clearances({{Pair::rod_to_cam, 1, CrankAngle::deg(430.0), in(0.070)},
                             {Pair::counterweight_to_block, 2, {}, in(0.048)},
                             {Pair::rod_to_cam, 2, CrankAngle::deg(65.0), in(0.055)},
                             {Pair::rod_to_cam, 6, {}, in(0.0555)},
                             {Pair::rod_to_cam, 5, {}, {}},
                             {Pair::counterweight_to_block, 1, {}, in(0.080)}},
                            common_rotating_clearance());
    ASSERT_TRUE(found.ok());
    ASSERT_EQ(found->size(), 2u);
    const RotatingClearance& rods = found->front();
    EXPECT_EQ(rods.pair, Pair::rod_to_cam);
    EXPECT_EQ(rods.smallest, 2u);
    EXPECT_NEAR(inches(rods.smallest_mm->low), 0.0545, 1e-9);
    EXPECT_NEAR(inches(rods.smallest_mm->high), 0.0555, 1e-9);
    EXPECT_EQ(rods.may_be_smallest, std::vector<std::size_t>{3}); // half a thousandth more
    EXPECT_EQ(rods.not_measured, std::vector<int>{5});
    EXPECT_EQ(rods.standing, SizeStanding::within);
    const RotatingClearance& weights = (*found)[1];
    EXPECT_EQ(weights.smallest, 1u);
    EXPECT_TRUE(weights.may_be_smallest.empty());
    EXPECT_TRUE(weights.not_measured.empty());
    EXPECT_EQ(weights.standing, SizeStanding::below);
}

TEST(RotatingClearance, APlaceReadAtSeveralAnglesCountsByItsSmallest) {
    const auto found =
        rotating_clearances({{Pair::rod_to_block, 3, CrankAngle::deg(60.0), {}},
                             {Pair::rod_to_block, 3, CrankAngle::deg(80.0), in(0.090)},
                             {Pair::rod_to_block, 3, CrankAngle::deg(100.0), in(0.050)}},
                            common_rotating_clearance());
    EXPECT_EQ(found->front().smallest, 2u);
    EXPECT_TRUE(found->front().not_measured.empty());
    EXPECT_EQ(found->front().standing, SizeStanding::too_close_to_call);    // .050 may be .0495
    const auto none = rotating_clearances({{Pair::rod_to_block, 3, {}, {}}, //
                                           {Pair::rod_to_block, 3, {}, {}}},
                                          common_rotating_clearance());
    EXPECT_FALSE(none->front().smallest.has_value());
    EXPECT_FALSE(none->front().smallest_mm.has_value());
    EXPECT_FALSE(none->front().standing.has_value());
    EXPECT_EQ(none->front().not_measured, std::vector<int>{3});
}

TEST(RotatingClearance, NamesWhatIsWrong) {
    EXPECT_EQ(rotating_clearances({}, {}).error().code, ErrorCode::too_few_rows);
    EXPECT_EQ(
        rotating_clearances({{Pair::rod_to_cam, 1, {}, Interval{5.0, 4.0}}}, {}).error().field,
        "gap");
    const auto angle =
        rotating_clearances({{Pair::rod_to_cam, 1, CrankAngle::deg(std::nan("")), in(0.06)}}, {});
    EXPECT_EQ(angle.error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(angle.error().line, 1);
}

} // namespace
} // namespace rodway
