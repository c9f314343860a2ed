#include "core/build/plan_place.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

StagePlan small_plan() {
    StagePlan plan{"small", "Small", std::nullopt, {}};
    plan.stages.push_back({"a", "A", std::nullopt, {{"a1", "A one"}, {"a2", "A two"}}, {}});
    plan.stages[0].gates.push_back({"ag", "Gate of A", {{NeedKind::steps}}});
    plan.stages.push_back({"b", "B", std::nullopt, {{"b1", "B one"}}, {}});
    return plan;
}

/// "a(a1 a2 |ag) b(b1)"
std::string shape(const StagePlan& plan) {
    std::string text;
    for (const PlannedStage& stage : plan.stages) {
        text += (text.empty() ? "" : " ") + stage.id + "(";
        for (const PlannedStep& step : stage.steps) {
            text += step.id + " ";
        }
        for (const PlannedGate& gate : stage.gates) {
            text += "|" + gate.id;
        }
        text += ")";
    }
    return text;
}

TEST(PlanPlace, EveryIdIsFoundAndGivesItsTitle) {
    StagePlan plan = small_plan();
    const std::vector<std::pair<std::string, std::string>> wanted{
        {"a", "A"},          {"a1", "A one"}, {"a2", "A two"},
        {"ag", "Gate of A"}, {"b", "B"},      {"b1", "B one"}};
    for (const auto& [id, title] : wanted) {
        const auto place = place_in(plan, id);
        ASSERT_TRUE(place.has_value()) << id;
        EXPECT_EQ(id_at(plan, *place), id);
        EXPECT_EQ(title_at(std::as_const(plan), *place), title);
    }
    EXPECT_FALSE(place_in(plan, "c").has_value());
    title_at(plan, *place_in(plan, "b1")) = "Other";
    EXPECT_EQ(plan.stages[1].steps[0].title, "Other");
}

TEST(PlanPlace, WhatIsPutInStandsBehindThePlaceUnderAFreeId) {
    StagePlan plan = small_plan();
    EXPECT_EQ(put_step_behind(plan, *place_in(plan, "a1"), "A one"), "a_one");
    EXPECT_EQ(put_step_behind(plan, *place_in(plan, "ag"), "A one"), "a_one_2");
    EXPECT_EQ(put_step_behind(plan, *place_in(plan, "b"), "7 bolts, ½ in"), "item_7_bolts_in");
    EXPECT_EQ(put_gate(plan, *place_in(plan, "b1"), "…"), "item");
    EXPECT_EQ(put_stage_behind(plan, place_in(plan, "a2"), "C"), "c");
    EXPECT_EQ(put_stage_behind(plan, std::nullopt, "First"), "first");
    EXPECT_EQ(shape(plan), "first() a(a1 a_one a2 a_one_2 |ag) c() b(b1 item_7_bolts_in |item)");
    EXPECT_EQ(plan.stages[3].gates[0].needs, (std::vector<Need>{{NeedKind::steps}}));
}

TEST(PlanPlace, ThingsMoveAmongTheirOwnKindAndNotBeyond) {
    StagePlan plan = small_plan();
    move_in_plan(plan, *place_in(plan, "a1"), 1);
    EXPECT_EQ(shape(plan), "a(a2 a1 |ag) b(b1 )");
    move_in_plan(plan, *place_in(plan, "a1"), 1);
    move_in_plan(plan, *place_in(plan, "a2"), -1);
    move_in_plan(plan, *place_in(plan, "ag"), -1);
    EXPECT_EQ(shape(plan), "a(a2 a1 |ag) b(b1 )");
    move_in_plan(plan, *place_in(plan, "b"), -1);
    EXPECT_EQ(shape(plan), "b(b1 ) a(a2 a1 |ag)");
}

TEST(PlanPlace, AStageGoesWithAllThatIsInIt) {
    StagePlan plan = small_plan();
    take_out_of_plan(plan, *place_in(plan, "a1"));
    take_out_of_plan(plan, *place_in(plan, "ag"));
    EXPECT_EQ(shape(plan), "a(a2 ) b(b1 )");
    take_out_of_plan(plan, *place_in(plan, "a"));
    EXPECT_EQ(shape(plan), "b(b1 )");
}

} // namespace
} // namespace rodway
