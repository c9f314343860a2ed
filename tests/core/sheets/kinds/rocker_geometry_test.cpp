#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

/// Ratio 1.6 with .020 of lash: .150 lifts .220, .300 lifts .460.
WrittenReadings dials() {
    WrittenReadings written;
    written.write("dial_at_lifter", "1I half", ".1500")
        .write("dial_at_valve", "1I half", ".2200")
        .write("dial_at_lifter", "1I full", ".3000")
        .write("dial_at_valve", "1I full", ".4600");
    return written;
}

// The quotient of the two at full lift would be 1.533: the lash isn't the rocker's.
TEST(RockerGeometrySheet, TheRatioDoesNotLoseTheLash) {
    WrittenReadings written = dials();
    EXPECT_NEAR(WorkedSheet("rocker_geometry", written).middle("rocker_ratio_measured", "1I"), 1.6,
                1e-3);
    written.write("dial_at_lifter", "1I closed", ".0000")
        .write("dial_at_valve", "1I closed", ".0000")
        .write("lash_at_dials", "1I", ".0200");
    const WorkedSheet sheet("rocker_geometry", written);
    EXPECT_NEAR(sheet.middle("rocker_ratio_measured", "1I"), 1.6, 1e-3);
    // Up to full lift it is known better than between half and full.
    EXPECT_LT(
        sheet.figure("rocker_ratio_measured", "1I")->width(),
        WorkedSheet("rocker_geometry", dials()).figure("rocker_ratio_measured", "1I")->width());
    EXPECT_THAT(sheet.findings(), IsEmpty());
    written.write("rocker_ratio_measured", "1I", "1.53");
    EXPECT_THAT(WorkedSheet("rocker_geometry", written).found(PointedOut::stated_differs),
                SizeIs(1));
}

TEST(RockerGeometrySheet, DialsAtFullLiftAloneMakeNoRatio) {
    WrittenReadings written;
    written.write("dial_at_lifter", "1I full", ".3000").write("dial_at_valve", "1I full", ".4600");
    EXPECT_FALSE(WorkedSheet("rocker_geometry", written).figure("rocker_ratio_measured", "1I"));
}

WrittenReadings stripe(const char* plus) {
    WrittenReadings written;
    written.write("sweep_position", "1I closed", "-.020")
        .write("sweep_position", "1I half", ".030")
        .write("sweep_position", "1I full", ".010")
        .write("sweep_plus_points", "", plus)
        .write("valve_stem_diameter", "1I", ".3420")
        .write("full_valve_lift", "1I", ".500")
        .write("rocker_valve_arm", "1I", "1.500");
    return written;
}

// By hand: .030 + .020 = .050, middle .005; .020 off is common practice, from memory.
TEST(RockerGeometrySheet, TheStripesMiddleIsJudged) {
    WrittenReadings written = stripe("away from pivot");
    const WorkedSheet sheet("rocker_geometry", written);
    EXPECT_NEAR(sheet.middle("sweep_travel", "1I"), 50.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("sweep_middle", "1I"), 5.0 * thou, 1e-9);
    EXPECT_EQ(sheet.verdict("sweep_middle", "1I"), SheetVerdict::passed);
    EXPECT_NEAR(sheet.middle("stripe_to_edge", "1I"), (171.0 - 30.0) * thou, 1e-3);
}

// Closed form: d = .030 from heel to full lift, chord² = d² + .5², raise d·√(1.5²/chord² - 1/4),
// whose sign hangs on which way plus points.
TEST(RockerGeometrySheet, ThePivotsHeightFollowsFromTheStripe) {
    const double chord_squared = 0.030 * 0.030 + 0.25;
    const double raise = 0.030 * std::sqrt(2.25 / chord_squared - 0.25) * mm_per_inch;
    EXPECT_NEAR(
        WorkedSheet("rocker_geometry", stripe("away from pivot")).middle("pivot_to_raise", "1I"),
        raise, 0.02);
    EXPECT_NEAR(
        WorkedSheet("rocker_geometry", stripe("towards pivot")).middle("pivot_to_raise", "1I"),
        -raise, 0.02);
    WrittenReadings unknown = stripe("towards pivot");
    unknown.write("sweep_plus_points", "", "");
    EXPECT_FALSE(WorkedSheet("rocker_geometry", unknown).figure("pivot_to_raise", "1I"));
}

// .030 or more: common practice.
TEST(RockerGeometrySheet, TheRockerKeepsItsGapToTheRetainer) {
    WrittenReadings written;
    written.write("retainer_to_rocker", "1I", ".025").write("retainer_to_rocker", "1E", ".040");
    const WorkedSheet sheet("rocker_geometry", written);
    EXPECT_EQ(sheet.verdict("retainer_to_rocker", "1I"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("retainer_to_rocker", "1E"), SheetVerdict::passed);
}

} // namespace
} // namespace rodway
