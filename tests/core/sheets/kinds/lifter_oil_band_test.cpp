#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

constexpr double thou = 0.001 * mm_per_inch;

/// Band .500 to .700 above the foot, feed of .100 at .600, lift .300.
WrittenReadings band() {
    WrittenReadings written;
    written.write("oil_band_lower_edge", "1I", ".500")
        .write("oil_band_upper_edge", "1I", ".700")
        .write("oil_feed_height", "1I", ".600")
        .write("oil_feed_diameter", "1I", ".100")
        .write("lobe_lift", "1I", ".300");
    return written;
}

// By hand: on the heel the whole feed opens into the band; at full lift the band's lower edge, at
// .800, is past it.
TEST(LifterOilBandSheet, TheFeedIsOpenWhereTheBandStandsOverIt) {
    const WorkedSheet sheet("lifter_oil_band", band());
    EXPECT_NEAR(sheet.figure("oil_feed_open_on_heel", "1I")->high, 100.5 * thou, 1e-6);
    EXPECT_NEAR(sheet.middle("oil_feed_open_at_full_lift", "1I"), 0.0, 1e-9);
    EXPECT_FALSE(sheet.figure("oil_band_exposed_on_heel", "1I"));
}

// The bore ends at .900: at full lift the band stands .100 out of it. A bore of which one end isn't
// known tells nothing: the other might leak.
TEST(LifterOilBandSheet, WhatStandsOutOfTheBoreIsToldOnlyOfBothEnds) {
    WrittenReadings written = band();
    written.write("lifter_bore_upper_end", "1I", ".900");
    EXPECT_FALSE(
        WorkedSheet("lifter_oil_band", written).figure("oil_band_exposed_at_full_lift", "1I"));
    written.write("lifter_bore_lower_end", "1I", ".300");
    WorkedSheet sheet("lifter_oil_band", written);
    EXPECT_NEAR(sheet.middle("oil_band_exposed_at_full_lift", "1I"), 100.0 * thou, 1e-6);
    EXPECT_EQ(sheet.verdict("oil_band_exposed_at_full_lift", "1I"), SheetVerdict::failed);
    EXPECT_EQ(sheet.verdict("oil_band_exposed_on_heel", "1I"), SheetVerdict::passed);
    // Bared at its lower end on the heel, too.
    written.write("lifter_bore_lower_end", "1I", ".550");
    sheet = WorkedSheet("lifter_oil_band", written);
    EXPECT_NEAR(sheet.middle("oil_band_exposed_on_heel", "1I"), 50.0 * thou, 1e-6);
}

TEST(LifterOilBandSheet, WithoutALiftNothingIsSaid) {
    WrittenReadings written = band();
    written.write("lobe_lift", "1I", "n/m");
    EXPECT_FALSE(WorkedSheet("lifter_oil_band", written).figure("oil_feed_open_on_heel", "1I"));
}

} // namespace
} // namespace rodway
