#include "core/bottom_end/size_band.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// JCGM 106:2012: what the doubt reaches over is neither within nor outside.
TEST(SizeBand, JudgesByAllThatASizeMayBe) {
    const SizeBand band{1.0, 2.0, FigureSource::shop};
    EXPECT_EQ(stand_in({1.2, 1.8}, band), SizeStanding::within);
    EXPECT_EQ(stand_in({1.0, 2.0}, band), SizeStanding::within);
    EXPECT_EQ(stand_in({0.9, 1.1}, band), SizeStanding::too_close_to_call);
    EXPECT_EQ(stand_in({1.9, 2.1}, band), SizeStanding::too_close_to_call);
    EXPECT_EQ(stand_in({0.5, 2.5}, band), SizeStanding::too_close_to_call);
    EXPECT_EQ(stand_in({0.5, 0.9}, band), SizeStanding::below);
    EXPECT_EQ(stand_in({2.1, 2.2}, band), SizeStanding::above);
    SizeBand open;
    open.low_mm = 1.0;
    EXPECT_EQ(stand_in({5.0, 900.0}, open), SizeStanding::within);
    // A millionth beyond an end is not beyond it.
    EXPECT_EQ(stand_in({1.0 - 5e-7, 2.0 + 5e-7}, band), SizeStanding::within);
    EXPECT_EQ(stand_in({2.0 + 5e-7, 2.1}, band), SizeStanding::too_close_to_call);
    EXPECT_EQ(stand_in({0.9, 1.0 - 5e-7}, band), SizeStanding::too_close_to_call);
    EXPECT_EQ(stand_in({2.0 + 2e-6, 2.1}, band), SizeStanding::above);
    EXPECT_EQ(stand_in({0.9, 1.0 - 2e-6}, band), SizeStanding::below);
    // Sums of inches don't come out even: .1 + .2 in is .3 in.
    EXPECT_EQ(stand_in(Interval::exactly((0.1 + 0.2) * 25.4), {0.0, 0.3 * 25.4, {}}),
              SizeStanding::within);
}

} // namespace
} // namespace rodway
