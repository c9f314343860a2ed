#include "core/bottom_end/bearing_clearance.h"

#include <gtest/gtest.h>

#include "core/units/length.h"

namespace rodway {
namespace {

double inches(double mm) {
    return Length::mm(mm).in_inches();
}
Interval in(double value, double step = 0.0001) {
    return Interval::around(Length::inches(value).in_mm(), Length::inches(step).in_mm());
}

/// Two ends, two directions: front upright, front across, rear upright, rear across.
std::vector<DiameterReading> four(double a, double b, double c, double d) {
    return {{0, 0, in(a)}, {0, 1, in(b)}, {1, 0, in(c)}, {1, 1, in(d)}};
}

SizeBand band(double low_in, double high_in) {
    return {Length::inches(low_in).in_mm(), Length::inches(high_in).in_mm(), FigureSource::shop};
}

/// Invented.
BearingReadings main_two() {
    BearingReadings readings;
    readings.bearing = "J2";
    readings.journal = four(2.4480, 2.4482, 2.4481, 2.4481);
    readings.bore = four(2.4506, 2.4508, 2.4505, 2.4509);
    return readings;
}

// By hand: means 2.4507 and 2.4481, .0026 apart, a step of each in doubt; the narrowest bore less
// the widest journal is .0023.
TEST(BearingClearance, IsAnIntervalAndHasATightestPlace) {
    const auto clearance = bearing_clearance(main_two(), band(0.0020, 0.0030));
    ASSERT_TRUE(clearance.ok());
    EXPECT_EQ(clearance->bearing, "J2");
    EXPECT_EQ(clearance->basis, ClearanceBasis::bearing_bore);
    EXPECT_NEAR(inches(clearance->gauge_mm->low), 0.0025, 1e-9);
    EXPECT_NEAR(inches(clearance->gauge_mm->high), 0.0027, 1e-9);
    EXPECT_NEAR(inches(clearance->tightest_mm->middle()), 0.0023, 1e-9);
    EXPECT_EQ(clearance->standing, SizeStanding::within);
    EXPECT_NEAR(inches(clearance->journal_out_of_round->size_mm.middle()), 0.0002, 1e-9);
    EXPECT_NEAR(inches(clearance->journal_taper->size_mm.high), 0.0002, 1e-9);
    EXPECT_NEAR(inches(clearance->bore_out_of_round->size_mm.middle()), 0.0004, 1e-9);
    EXPECT_EQ(clearance->bore_out_of_round->at, 1);
    EXPECT_EQ(bearing_clearance(main_two(), band(0.0026, 0.0030))->standing,
              SizeStanding::too_close_to_call);
    EXPECT_EQ(bearing_clearance(main_two(), band(0.0028, 0.0030))->standing, SizeStanding::below);
}

TEST(BearingClearance, ByHousingItTakesTwoShells) {
    BearingReadings readings = main_two();
    readings.bore.clear();
    readings.housing = four(2.6412, 2.6412, 2.6412, 2.6412);
    auto clearance = *bearing_clearance(readings, band(0.0020, 0.0030));
    EXPECT_EQ(clearance.basis, ClearanceBasis::housing);
    EXPECT_FALSE(clearance.gauge_mm.has_value()); // a shell's wall is needed
    EXPECT_FALSE(clearance.standing.has_value());
    readings.shell_mm = in(0.0953);
    clearance = *bearing_clearance(readings, band(0.0020, 0.0030));
    EXPECT_NEAR(inches(clearance.gauge_mm->middle()), 2.6412 - 0.1906 - 2.4481, 1e-9);
    EXPECT_NEAR(inches(clearance.gauge_mm->width()), 0.0001 + 0.0002 + 0.0001, 1e-9);
    // With the shells in, the bore counts.
    readings.bore = main_two().bore;
    EXPECT_EQ(bearing_clearance(readings, band(0.0, 1.0))->basis, ClearanceBasis::bearing_bore);
}

// "Plastic strip says .0015, gauge .0025": both are kept, and their difference. The strip is read
// between two widths of its paper, .0005 in apart (common practice, no source).
TEST(BearingClearance, StripAndGaugeAreBothKept) {
    BearingReadings readings = main_two();
    readings.strip_mm = in(0.0015, 0.0005);
    auto clearance = *bearing_clearance(readings, band(0.0020, 0.0030));
    EXPECT_NEAR(inches(clearance.gauge_mm->middle()), 0.0026, 1e-9);
    EXPECT_NEAR(inches(clearance.strip_mm->middle()), 0.0015, 1e-9);
    EXPECT_NEAR(inches(clearance.strip_more_by_mm->middle()), -0.0011, 1e-9);
    EXPECT_TRUE(clearance.methods_disagree);
    EXPECT_EQ(clearance.standing, SizeStanding::within); // of the gauge
    readings.strip_mm = in(0.0024, 0.0005);
    EXPECT_FALSE(bearing_clearance(readings, band(0.0020, 0.0030))->methods_disagree);
    // A strip alone is kept without a gauge to set it beside.
    BearingReadings strip_only;
    strip_only.strip_mm = in(0.0015, 0.0005);
    clearance = *bearing_clearance(strip_only, band(0.0020, 0.0030));
    EXPECT_FALSE(clearance.gauge_mm.has_value());
    EXPECT_FALSE(clearance.strip_more_by_mm.has_value());
    EXPECT_TRUE(clearance.strip_mm.has_value());
    EXPECT_FALSE(clearance.basis.has_value());
}

// .001 in for each inch of journal, common practice, no source.
TEST(BearingClearance, CommonPracticeIsLabelledSo) {
    const SizeBand usual = common_bearing_clearance(Length::inches(2.1).in_mm());
    EXPECT_NEAR(inches(usual.low_mm), 0.0021, 1e-9);
    EXPECT_NEAR(inches(usual.high_mm), 0.0026, 1e-9);
    EXPECT_EQ(usual.source, FigureSource::common_practice);
}

TEST(BearingClearance, NamesWhatIsWrong) {
    BearingReadings readings = main_two();
    readings.journal[2].diameter_mm = {2.448, 2.448}; // inches typed
    EXPECT_EQ(bearing_clearance(readings, band(0, 1)).error().field, "journal");
    EXPECT_EQ(bearing_clearance(readings, band(0, 1)).error().line, 3);
    readings = main_two();
    readings.shell_mm = Interval{0.09, 0.09};
    EXPECT_EQ(bearing_clearance(readings, band(0, 1)).error().field, "shell");
    readings = main_two();
    readings.strip_mm = Interval{2.5, 2.5};
    EXPECT_EQ(bearing_clearance(readings, band(0, 1)).error().field, "strip");
}

} // namespace
} // namespace rodway
