#include "core/distributor/gear_float.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/length.h"

namespace rodway {
namespace {

Interval in(double inches, double half = 0.0) {
    return Interval::about(inches, half) * Length::mm_per_inch;
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}

// britishcarforum.com 17373: float .003 to .007 in: a washer of .062 and a gap of .060 are +.002,
// add .003; a gap of .065 is -.003, add .008.
TEST(GearFloat, GivesThePublishedShims) {
    const auto loose = gear_float({in(0.062), in(0.060)}, usual_gear_float_mm());
    ASSERT_TRUE(loose.ok());
    EXPECT_NEAR(inches(loose->float_mm.middle()), 0.002, 1e-9);
    EXPECT_NEAR(inches(loose->to_target_mm.middle()), 0.003, 1e-9);
    EXPECT_EQ(loose->standing, BandStanding::below);
    const auto bearing = gear_float({in(0.062), in(0.065)}, usual_gear_float_mm());
    EXPECT_NEAR(inches(bearing->float_mm.middle()), -0.003, 1e-9);
    EXPECT_NEAR(inches(bearing->to_target_mm.middle()), 0.008, 1e-9);
    EXPECT_NEAR(inches(bearing->may_add_mm->low), 0.006, 1e-9);
    EXPECT_NEAR(inches(bearing->may_add_mm->high), 0.010, 1e-9);
    EXPECT_EQ(usual_gear_float_mm().source, FigureSource::common_practice);
}

// Worked by hand: a gap of .050 is .012 of float; .007 must come out, or go on the shaft.
TEST(GearFloat, TooMuchFloatAsksForLessUnderTheHousingOrMoreOnTheShaft) {
    const GearFloatReadings readings{in(0.062), in(0.050)};
    const auto housing = gear_float(readings, usual_gear_float_mm(), ShimPlace::under_housing);
    EXPECT_EQ(housing->standing, BandStanding::above);
    EXPECT_NEAR(inches(housing->to_target_mm.middle()), -0.007, 1e-9);
    const auto shaft = gear_float(readings, usual_gear_float_mm(), ShimPlace::on_shaft);
    EXPECT_NEAR(inches(shaft->to_target_mm.middle()), 0.007, 1e-9);
    EXPECT_NEAR(inches(shaft->may_add_mm->low), 0.005, 1e-9);
    EXPECT_NEAR(inches(shaft->may_add_mm->high), 0.009, 1e-9);
}

// Whichever shim is named, at both ends of the doubt the float then lies in the band.
TEST(GearFloat, AShimThatMayBeAddedIsSureToDo) {
    const FigureBand band = usual_gear_float_mm();
    const GearFloatReadings readings{in(0.062, 0.0005), in(0.0645, 0.0005)};
    for (const ShimPlace place : {ShimPlace::under_housing, ShimPlace::on_shaft}) {
        const auto found = gear_float(readings, band, place);
        ASSERT_TRUE(found->may_add_mm.has_value());
        const double sign = place == ShimPlace::under_housing ? 1.0 : -1.0;
        for (const double shim : {found->may_add_mm->low, found->may_add_mm->high}) {
            const Interval then = found->float_mm + Interval::exactly(sign * shim);
            EXPECT_EQ(standing(then, band), BandStanding::inside);
        }
        EXPECT_NEAR(inches(found->may_add_mm->high - found->may_add_mm->low), 0.002, 1e-9);
    }
    // Feelers too coarse for the band: no shim is sure to do.
    const auto coarse = gear_float({in(0.062, 0.002), in(0.0645, 0.001)}, band);
    EXPECT_FALSE(coarse->may_add_mm.has_value());
    EXPECT_NEAR(inches(coarse->to_target_mm.half_width()), 0.003, 1e-9);
}

TEST(GearFloat, BadReadingsAreNamed) {
    const GearFloatReadings good{in(0.062), in(0.060)};
    const FigureBand band = usual_gear_float_mm();
    EXPECT_EQ(gear_float({{-1.0, 1.0}, in(0.060)}, band).error().field, "washer");
    EXPECT_EQ(gear_float({in(0.062), Interval::exactly(std::nan(""))}, band).error().field, "gap");
    EXPECT_EQ(gear_float(good, {{}, 1.0, {}}).error().field, "wanted/low");
    EXPECT_EQ(gear_float(good, {1.0, {}, {}}).error().code, ErrorCode::missing_field);
    EXPECT_EQ(gear_float(good, {2.0, 1.0, {}}).error().field, "wanted/high");
}

} // namespace
} // namespace rodway
