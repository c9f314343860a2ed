#include "core/bottom_end/ring_gap.h"

#include <gtest/gtest.h>

#include <numbers>

#include "core/units/length.h"

namespace rodway {
namespace {

double mm(double inches) {
    return Length::inches(inches).in_mm();
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}
Interval feeler(double value_in, double step_in = 0.001) {
    return Interval::around(mm(value_in), mm(step_in));
}

// Common practice, no source: .0040 to .0045 in for each inch of bore, top ring, road: .016 to .018
// in 4 in.
TEST(RingGap, SaysWhatIsNeededAndWhatToFile) {
    const RingGapFigure road = common_ring_gap(PistonRing::top, RingUse::road);
    EXPECT_EQ(road.source, FigureSource::common_practice);
    const auto tight = ring_gap(mm(4.0), feeler(0.012), road);
    ASSERT_TRUE(tight.ok());
    EXPECT_NEAR(inches(tight->least_mm), 0.016, 1e-9);
    EXPECT_NEAR(inches(tight->most_mm), 0.018, 1e-9);
    EXPECT_EQ(tight->standing, RingGapStanding::file);
    EXPECT_NEAR(inches(tight->file_mm), 0.0045, 1e-9); // .012 may be .0115
    const auto good = ring_gap(mm(4.0), feeler(0.017), road);
    EXPECT_EQ(good->standing, RingGapStanding::within);
    EXPECT_EQ(good->file_mm, 0.0);
    const auto unclear = ring_gap(mm(4.0), feeler(0.016), road);
    EXPECT_EQ(unclear->standing, RingGapStanding::too_close_to_call);
    EXPECT_NEAR(inches(unclear->file_mm), 0.0005, 1e-9);
    const auto wide = ring_gap(mm(4.0), feeler(0.024), road);
    EXPECT_EQ(wide->standing, RingGapStanding::too_large);
    EXPECT_EQ(wide->file_mm, 0.0);
    // The need grows with the bore, and with boost.
    EXPECT_NEAR(inches(ring_gap(mm(4.5), feeler(0.02), road)->least_mm), 0.018, 1e-9);
    for (const PistonRing ring : {PistonRing::top, PistonRing::second}) {
        EXPECT_GT(common_ring_gap(ring, RingUse::boosted).least_per_bore,
                  common_ring_gap(ring, RingUse::road).least_per_bore);
    }
    const RingGapFigure card{0.0065, 0.0070, FigureSource::makers_instructions};
    EXPECT_NEAR(inches(ring_gap(mm(4.0), feeler(0.02), card)->least_mm), 0.026, 1e-9);
}

// Geometry: a closed ring's length is π·bore less its gap, and it stays.
TEST(RingGap, OpensByPiTimesTheBore) {
    const double bore_mm = 101.6;
    const double gap_mm = 0.4;
    const double length_mm = std::numbers::pi * bore_mm - gap_mm;
    for (const double wider_mm : {0.0, 0.0127, 0.5, -0.05}) {
        const auto gap = gap_in_bore(Interval::exactly(gap_mm), bore_mm, bore_mm + wider_mm);
        EXPECT_NEAR(std::numbers::pi * (bore_mm + wider_mm) - gap.middle(), length_mm, 1e-9);
    }
}

TEST(RingGap, NamesWhatIsWrong) {
    const RingGapFigure road = common_ring_gap(PistonRing::top, RingUse::road);
    EXPECT_EQ(ring_gap(4.0, feeler(0.016), road).error().field, "bore"); // inches typed
    EXPECT_EQ(ring_gap(101.6, {0.5, 0.4}, road).error().field, "gap");
    EXPECT_EQ(ring_gap(101.6, feeler(0.016), {4.5, 5.0, {}}).error().field, "least_per_bore");
    EXPECT_EQ(ring_gap(101.6, feeler(0.016), {0.005, 0.004, {}}).error().field, "most_per_bore");
}

} // namespace
} // namespace rodway
