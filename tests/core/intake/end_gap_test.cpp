#include "core/intake/end_gap.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/length.h"

namespace rodway {
namespace {

double in(double inches) {
    return Length::inches(inches).in_mm();
}

// Worked by hand: a bead pressed by a third of itself fills 2/3 of its height: 3 mm want 4.5.
TEST(EndGap, ABeadIsLaidSoHighThatTheGapPressesIt) {
    const auto beads = end_beads({{2.9, 3.1}, {3.9, 4.1}}, Interval::exactly(1.0 / 3.0));
    ASSERT_TRUE(beads.ok());
    EXPECT_NEAR(beads->front_mm.low, 4.35, 1e-12);
    EXPECT_NEAR(beads->front_mm.high, 4.65, 1e-12);
    EXPECT_NEAR(beads->rear_mm.middle(), 6.0, 1e-12);
    EXPECT_NEAR(beads->front_less_rear_mm.middle(), -1.0, 1e-12);
    // Without crush it is the gap itself; with a share in doubt it spreads both ways.
    EXPECT_EQ(end_beads({{2.9, 3.1}, {3.9, 4.1}}, Interval::exactly(0.0))->front_mm,
              (Interval{2.9, 3.1}));
    const auto doubted = end_beads({Interval::exactly(3.0), Interval::exactly(3.0)}, {0.25, 0.5});
    EXPECT_NEAR(doubted->front_mm.low, 4.0, 1e-12);
    EXPECT_NEAR(doubted->front_mm.high, 6.0, 1e-12);
}

// Question 30. Worked by hand: cork of 4 mm, pressed by a fifth to two fifths, fills 2.4 to 3.2 mm.
TEST(EndGap, AMouldedSealFitsOnlyItsOwnGap) {
    const EndSeal cork{Interval::exactly(4.0), 0.2, 0.4};
    const auto fit = [&](const Interval& gap) { return *end_seal_fit(gap, cork); };
    EXPECT_EQ(fit({2.6, 3.0}), EndSealFit::fits);
    EXPECT_EQ(fit({2.4, 3.2}), EndSealFit::fits) << "ends included";
    EXPECT_EQ(fit({3.3, 3.5}), EndSealFit::gap_too_wide);
    EXPECT_EQ(fit({2.0, 2.3}), EndSealFit::gap_too_small);
    EXPECT_EQ(fit({3.0, 3.4}), EndSealFit::undecided);
    EXPECT_EQ(fit({2.0, 3.0}), EndSealFit::undecided);
    EXPECT_EQ(*end_seal_fit({3.1, 3.1}, {{3.8, 4.2}, 0.2, 0.4}), EndSealFit::undecided)
        << "the cork's own thickness is in doubt";
}

// 1/8 in is typical; silicone fails where the gap is large (common practice, no source).
TEST(EndGap, ABeadsUsualGapIsNoMoreThanThat) {
    EXPECT_EQ(standing(Interval::about(in(0.110), in(0.005)), usual_bead_gap_mm()),
              BandStanding::inside);
    EXPECT_EQ(standing(Interval::about(in(0.200), in(0.005)), usual_bead_gap_mm()),
              BandStanding::above);
    EXPECT_EQ(usual_bead_gap_mm().source, FigureSource::common_practice);
}

TEST(EndGap, BadReadingsAreNamed) {
    const Interval gap = Interval::exactly(3.0);
    EXPECT_EQ(end_beads({{-1.0, 3.0}, gap}, {0.2, 0.2}).error().field, "front");
    EXPECT_EQ(end_beads({gap, {3.0, 26.0}}, {0.2, 0.2}).error().field, "rear");
    EXPECT_EQ(end_beads({gap, gap}, {0.2, 1.0}).error().field, "crush_share");
    EXPECT_EQ(end_seal_fit(gap, {{0.0, 4.0}, 0.2, 0.4}).error().field, "thickness");
    EXPECT_EQ(end_seal_fit(gap, {{4.0, 4.0}, 0.4, 0.2}).error().field, "most_crush");
    EXPECT_EQ(end_seal_fit(gap, {{4.0, 4.0}, -0.1, 0.2}).error().field, "least_crush");
    EXPECT_EQ(end_seal_fit({1.0, std::nan("")}, {{4.0, 4.0}, 0.1, 0.2}).error().field, "gap");
}

} // namespace
} // namespace rodway
