#include "core/units/figure_band.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(FigureBand, ADoubtThatReachesOverAnEndDecidesNothing) {
    const FigureBand band{1.0, 2.0, FigureSource::shop};
    EXPECT_EQ(standing({1.2, 1.8}, band), BandStanding::inside);
    EXPECT_EQ(standing({0.5, 0.9}, band), BandStanding::below);
    EXPECT_EQ(standing({2.1, 2.2}, band), BandStanding::above);
    EXPECT_EQ(standing({0.9, 1.1}, band), BandStanding::may_be_below);
    EXPECT_EQ(standing({1.9, 2.1}, band), BandStanding::may_be_above);
    EXPECT_EQ(standing({0.9, 2.1}, band), BandStanding::may_be_either);
}

TEST(FigureBand, AnEndMetExactlyIsMet) {
    const FigureBand band{0.3, 0.6, FigureSource::shop};
    EXPECT_EQ(standing(Interval::exactly(0.1 + 0.2), band), BandStanding::inside);
    EXPECT_EQ(standing(Interval::exactly(0.3 - 1e-17), band), BandStanding::inside);
    EXPECT_EQ(standing(Interval::exactly(0.6 + 1e-16), band), BandStanding::inside);
    EXPECT_EQ(standing(Interval::exactly(0.3 - 1e-6), band), BandStanding::below);
    EXPECT_EQ(standing(Interval::exactly(0.6 + 1e-6), band), BandStanding::above);
}

TEST(FigureBand, AMissingEndIsNoEnd) {
    EXPECT_EQ(standing({-1e9, 1.0}, {{}, 1.0, {}}), BandStanding::inside);
    EXPECT_EQ(standing({1.0, 1e9}, {1.0, {}, {}}), BandStanding::inside);
    EXPECT_EQ(standing({-1e9, 1e9}, {}), BandStanding::inside);
}

} // namespace
} // namespace rodway
