#include "core/build/arrival.h"

#include <gmock/gmock.h>

#include "tests/core/build/work_facts.h"

namespace rodway {
namespace {

TEST(Arrival, SaysWhatAPartSetsFreeAndWhatStillWaitsForOthers) {
    const BuildFacts records = a_build().records;
    PlanAndParts build{records.stages, records.steps, {}, {}};
    build.steps[3].part_roles = "pushrod, rocker"; // step 22
    build.gates = {{5, 3, 1, "Gate", "steps; parts pushrod", {}}};
    PartRecord rods;
    rods.id = 1;
    rods.item = "pushrods";
    rods.role = "pushrod";
    rods.step_id = 11;
    PartRecord rockers = rods;
    rockers.id = 2;
    rockers.role = "rocker";
    rockers.step_id.reset();
    rockers.promised = "2026-03-20";
    build.parts = {rods, rockers};
    const auto list = what_arrives_for(build, rods, "2026-03-10");
    ASSERT_EQ(list.size(), 3u);
    EXPECT_EQ(list[0].step_id, 11);
    EXPECT_TRUE(list[0].sets_free());
    EXPECT_EQ(list[1].step_id, 22);
    EXPECT_EQ(list[1].stage_id, 2);
    EXPECT_EQ(list[1].others, 1); // the rockers
    EXPECT_FALSE(list[1].sets_free());
    EXPECT_EQ(list[2].gate_id, 5);
    EXPECT_TRUE(list[2].sets_free());
    build.parts[1].received = "2026-03-10";
    EXPECT_TRUE(what_arrives_for(build, rods, "2026-03-10")[1].sets_free());
    build.steps[0].ticked_at = "2026-03-10T12:00:00Z";
    EXPECT_EQ(what_arrives_for(build, rods, "2026-03-10").size(), 2u);
}

TEST(Arrival, APartThatNothingAsksForSetsNothingFree) {
    const BuildFacts records = a_build().records;
    PartRecord part;
    part.id = 1;
    EXPECT_THAT(what_arrives_for({records.stages, records.steps, {}, {part}}, part, "2026-03-10"),
                ::testing::IsEmpty());
}

TEST(Arrival, WhatIsHereOrHasBeenReplacedIsWaitedForNoMore) {
    const BuildFacts records = a_build().records;
    PlanAndParts build{records.stages, records.steps, {}, {}};
    build.steps[3].part_roles = "pushrod, rocker";
    build.gates = {{5, 3, 1, "Gate", "parts pushrod", {}}, {6, 3, 2, "Broken", "parts", {}}};
    PartRecord rods;
    rods.id = 1;
    rods.item = "pushrods";
    rods.role = "pushrod";
    PartRecord rockers = rods;
    rockers.id = 2;
    rockers.role = "rocker";
    PartRecord longer = rods;
    longer.id = 3;
    longer.replaces_id = 1;
    build.parts = {rods, rockers, longer};
    EXPECT_THAT(what_arrives_for(build, rods, "2026-03-10"), ::testing::IsEmpty());
    // The replaced one isn't counted beside the one in its place.
    const auto list = what_arrives_for(build, longer, "2026-03-10");
    ASSERT_EQ(list.size(), 2u);
    EXPECT_EQ(list[0].others, 1); // the rockers
    EXPECT_TRUE(list[1].sets_free());
    build.parts[2].received = "2026-03-09";
    EXPECT_THAT(what_arrives_for(build, build.parts[2], "2026-03-10"), ::testing::IsEmpty());
    EXPECT_TRUE(what_arrives_for(build, rockers, "2026-03-10")[0].sets_free());
}

} // namespace
} // namespace rodway
