#include "core/build/cure_state.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

Cure bonded(std::optional<int> handling, std::optional<int> full) {
    Cure cure;
    cure.place = "tubes, left head";
    cure.handling_minutes = handling;
    cure.full_minutes = full;
    cure.applied_at = "2026-03-01T18:00:00Z";
    return cure;
}

TEST(CureState, WetUntilHandlingThenMayBeHandledThenCured) {
    const Cure cure = bonded(30, 720);
    const CureState wet = cure_state(cure, "2026-03-01T18:29:59Z");
    EXPECT_EQ(wet.stage, CureStage::wet);
    EXPECT_EQ(wet.minutes_to_handling, 1); // a begun minute counts whole
    EXPECT_EQ(wet.minutes_to_full, 691);
    EXPECT_EQ(wet.handling_at, "2026-03-01T18:30:00Z");
    EXPECT_EQ(wet.full_at, "2026-03-02T06:00:00Z");
    EXPECT_TRUE(wet.is_running());

    const CureState handled = cure_state(cure, "2026-03-01T18:30:00Z");
    EXPECT_EQ(handled.stage, CureStage::may_be_handled);
    EXPECT_EQ(handled.minutes_to_handling, 0);
    EXPECT_EQ(handled.minutes_to_full, 690);
    EXPECT_TRUE(handled.is_running());

    EXPECT_EQ(cure_state(cure, "2026-03-02T05:59:59Z").stage, CureStage::may_be_handled);
    const CureState cured = cure_state(cure, "2026-03-02T06:00:00Z");
    EXPECT_EQ(cured.stage, CureStage::cured);
    EXPECT_EQ(cured.minutes_to_full, 0);
    EXPECT_FALSE(cured.is_running());
    EXPECT_EQ(cured.ended_early, std::nullopt);
}

TEST(CureState, WhatTheLabelDoesNotSayIsNotKnownAndNeverZero) {
    const CureState nothing = cure_state(bonded({}, {}), "2026-04-01T00:00:00Z");
    EXPECT_EQ(nothing.stage, CureStage::not_known);
    EXPECT_EQ(nothing.handling_at, std::nullopt);
    EXPECT_EQ(nothing.full_at, std::nullopt);
    EXPECT_EQ(nothing.minutes_to_handling, std::nullopt);
    EXPECT_EQ(nothing.minutes_to_full, std::nullopt);
    EXPECT_TRUE(nothing.is_running());

    const CureState only_full = cure_state(bonded({}, 60), "2026-03-01T18:30:00Z");
    EXPECT_EQ(only_full.stage, CureStage::not_known); // whether it may be handled
    EXPECT_EQ(only_full.minutes_to_full, 30);
    EXPECT_EQ(only_full.minutes_to_handling, std::nullopt);
    EXPECT_EQ(cure_state(bonded({}, 60), "2026-03-01T19:00:00Z").stage, CureStage::cured);

    const CureState only_handling = cure_state(bonded(10, {}), "2027-03-01T18:00:00Z");
    EXPECT_EQ(only_handling.stage, CureStage::may_be_handled);
    EXPECT_EQ(only_handling.minutes_to_full, std::nullopt);
    EXPECT_TRUE(only_handling.is_running()); // somebody must look
}

TEST(CureState, ZeroMinutesOnTheLabelIsKnown) {
    const CureState at_once = cure_state(bonded(0, 0), "2026-03-01T18:00:00Z");
    EXPECT_EQ(at_once.stage, CureStage::cured);
    EXPECT_EQ(at_once.full_at, "2026-03-01T18:00:00Z");
}

TEST(CureState, EndedSaysWhetherBeforeTheLabelsTime) {
    Cure cure = bonded(30, 720);
    cure.ended = "2026-03-02T05:59:59Z";
    EXPECT_EQ(cure_state(cure, "2026-03-01T18:01:00Z").stage, CureStage::ended);
    EXPECT_EQ(cure_state(cure, "2026-03-01T18:01:00Z").ended_early, true);
    EXPECT_FALSE(cure_state(cure, "2026-03-01T18:01:00Z").is_running());
    cure.ended = "2026-03-02T06:00:00Z";
    EXPECT_EQ(cure_state(cure, "2026-03-02T07:00:00Z").ended_early, false);
    cure.full_minutes.reset();
    EXPECT_EQ(cure_state(cure, "2026-03-02T07:00:00Z").ended_early, std::nullopt);
}

TEST(CureState, IsNotCuredBeforeItMayBeHandled) {
    const Cure slip = bonded(120, 60); // the two times changed places when they were typed
    EXPECT_EQ(cure_state(slip, "2026-03-01T19:30:00Z").stage, CureStage::wet);
    EXPECT_EQ(cure_state(slip, "2026-03-01T20:00:00Z").stage, CureStage::cured);
}

// UTC knows no summer time: twelve hours over the night of the change are twelve hours. Clocks in
// Europe went forward on 2026-03-29 at 01:00 UTC (Directive 2000/84/EC, article 2).
TEST(CureState, TakesItsTimeOverTheChangeOfClocks) {
    Cure cure = bonded(30, 720);
    cure.applied_at = "2026-03-28T19:00:00Z"; // 20:00 by the wall
    EXPECT_EQ(cure_state(cure, "2026-03-29T06:59:59Z").stage, CureStage::may_be_handled);
    EXPECT_EQ(cure_state(cure, "2026-03-29T07:00:00Z").stage, CureStage::cured); // 09:00, not 08:00
}

TEST(CureState, ATimeThatNobodyCanReadMakesItNotKnown) {
    Cure cure = bonded(30, 720);
    cure.applied_at = "yesterday";
    EXPECT_EQ(cure_state(cure, "2026-03-01T18:00:00Z").stage, CureStage::not_known);
    EXPECT_EQ(cure_state(cure, "2026-03-01T18:00:00Z").full_at, std::nullopt);
    EXPECT_EQ(cure_state(bonded(30, 720), "now").stage, CureStage::not_known);
}

} // namespace
} // namespace rodway
