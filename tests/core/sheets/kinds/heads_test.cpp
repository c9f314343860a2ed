#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "core/intake/milling_match.h"
#include "tests/core/demo_set_ups.h"
#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

constexpr double thou = 0.001 * mm_per_inch;

// By hand: 65.2 - 64.0 = 1.2, each to half of .1; the mean is 64.45.
TEST(HeadsSheet, ChambersSpreadAndWhatMatchesThemFollow) {
    WrittenReadings written;
    written.write("chamber_volume", "1", "64.0")
        .write("chamber_volume", "2", "64.5")
        .write("chamber_volume", "3", "65.2")
        .write("chamber_volume", "4", "64.1");
    const WorkedSheet sheet("heads", written);
    EXPECT_NEAR(sheet.middle("chamber_spread"), 1.2, 1e-9);
    EXPECT_NEAR(sheet.figure("chamber_spread")->half_width(), 0.1, 1e-9);
    EXPECT_NEAR(sheet.middle("chamber_from_mean", "1"), -0.45, 1e-9);
    EXPECT_NEAR(sheet.middle("chamber_to_open", "1"), 1.2, 1e-9);
    EXPECT_NEAR(sheet.figure("chamber_to_open", "3")->low, 0.0, 1e-9);
}

TEST(HeadsSheet, OneChamberHasNoSpread) {
    WrittenReadings written;
    written.write("chamber_volume", "1", "64.0").write("chamber_volume", "2", "n/m");
    EXPECT_FALSE(WorkedSheet("heads", written).figure("chamber_spread"));
}

// Second way: the same cuts made in the set-up itself. Unlike cuts show a mix-up of the sides.
TEST(HeadsSheet, WhatTheIntakeMustLoseIsWhatTheSetUpSays) {
    Engine engine = demo_engine("v8-port-tubes");
    const EnginePlaces places = places_on(engine);
    WrittenReadings written;
    written.write("head_removed", "left", ".030").write("head_removed", "right", ".010");
    const WorkedSheet sheet("heads", written, &engine, &places);
    for (std::size_t bank = 0; bank < 2; ++bank) {
        const bool right = engine.layout.banks[bank].lean_deg > 0.0;
        HeadSetting setting = engine.heads.of(bank);
        setting.deck_face_milled_mm += (right ? 10.0 : 30.0) * thou;
        engine.set_head(bank, setting);
    }
    const auto twin = milling_match(engine);
    ASSERT_TRUE(twin.ok());
    const bool first_is_right = engine.layout.banks[0].lean_deg > 0.0;
    EXPECT_NEAR(sheet.middle("intake_face_to_mill", first_is_right ? "right" : "left"),
                twin->off_face_mm[0], 1e-9);
    EXPECT_NEAR(sheet.middle("intake_face_to_mill", first_is_right ? "left" : "right"),
                twin->off_face_mm[1], 1e-9);
    EXPECT_NEAR(sheet.middle("end_rails_to_mill"), twin->off_end_rails_mm, 1e-9);
    EXPECT_GT(std::abs(twin->off_face_mm[0] - twin->off_face_mm[1]), 1e-3);
}

TEST(HeadsSheet, OneHeadMeasuredSaysNothingOfTheIntake) {
    const Engine engine = demo_engine("v8-port-tubes");
    const EnginePlaces places = places_on(engine);
    WrittenReadings written;
    written.write("head_removed", "left", ".030");
    EXPECT_FALSE(WorkedSheet("heads", written, &engine, &places).figure("end_rails_to_mill"));
}

} // namespace
} // namespace rodway
