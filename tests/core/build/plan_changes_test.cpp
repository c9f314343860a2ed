#include "core/build/plan_changes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>

#include "core/build/need.h"
#include "tests/core/built_in_plans.h"

namespace rodway {
namespace {

StagePlan small_plan() {
    StagePlan plan{"small", "Small", std::nullopt, {}};
    plan.stages.push_back({"a", "A", std::nullopt, {}, {}});
    for (const char* id : {"a1", "a2", "a3", "a4"}) {
        plan.stages[0].steps.push_back({id, std::string("Step ") + id});
    }
    plan.stages[0].gates.push_back({"ag", "Gate of A", {{NeedKind::steps}}});
    plan.stages.push_back({"b", "B", "lifting", {{"b1", "Step b1"}}, {}});
    return plan;
}

/// A build that began with the plan, its records under ids as the shop file gives them.
PlanInBuild begun(const StagePlan& plan) {
    PlanInBuild build = plan_for_new_build(plan, 7);
    std::map<std::int64_t, std::int64_t> stages;
    std::int64_t next = 100;
    for (Stage& stage : build.stages) {
        stages[stage.id] = next;
        stage.id = next++;
    }
    for (Step& step : build.steps) {
        step.id = next++;
        step.stage_id = stages.at(step.stage_id);
    }
    for (Gate& gate : build.gates) {
        gate.id = next++;
        gate.stage_id = stages.at(gate.stage_id);
    }
    return build;
}

Step& step_of(PlanInBuild& build, const std::string& item) {
    return *std::find_if(build.steps.begin(), build.steps.end(),
                         [&](const Step& step) { return step.plan_item == item; });
}

/// Titles of a stage's steps as they stand.
std::vector<std::string> titles(const PlanInBuild& build, const std::string& stage_title) {
    const auto stage = std::find_if(build.stages.begin(), build.stages.end(),
                                    [&](const Stage& one) { return one.title == stage_title; });
    std::vector<Step> steps;
    for (const Step& step : build.steps) {
        if (stage != build.stages.end() && step.stage_id == stage->id) {
            steps.push_back(step);
        }
    }
    std::sort(steps.begin(), steps.end(),
              [](const Step& a, const Step& b) { return a.ordinal < b.ordinal; });
    std::vector<std::string> names;
    for (const Step& step : steps) {
        names.push_back(step.title);
    }
    return names;
}

PlanInBuild taken(const PlanInBuild& build, const StagePlan& plan,
                  const std::set<std::string>& chosen,
                  const std::set<RecordRef, ByKindAndId>& referred = {}) {
    return take_plan_changes(build, plan, chosen, referred, "not in the plan").after;
}

TEST(PlanChanges, ANewBuildHasEverythingOfItsPlanAndDiffersInNothing) {
    const PlanInBuild build = plan_for_new_build(small_plan(), 7);
    ASSERT_EQ(build.stages.size(), 2U);
    EXPECT_EQ(build.stages[0].build_id, 7);
    EXPECT_EQ(build.stages[1].caution, "lifting");
    EXPECT_EQ(build.stages[1].plan_item, "small:b");
    EXPECT_EQ(build.stages[1].ordinal, 2);
    EXPECT_EQ(titles(build, "A"),
              (std::vector<std::string>{"Step a1", "Step a2", "Step a3", "Step a4"}));
    ASSERT_EQ(build.gates.size(), 1U);
    EXPECT_EQ(build.gates[0].needs, "steps");
    EXPECT_EQ(build.gates[0].stage_id, build.stages[0].id);
    for (const char* word : tests::built_in_plan_words) {
        const StagePlan plan = tests::built_in_plan(word);
        const PlanInBuild whole = begun(plan);
        EXPECT_TRUE(plan_changes(whole, plan).empty()) << word;
        std::size_t steps = 0;
        for (const PlannedStage& stage : plan.stages) {
            steps += stage.steps.size();
        }
        EXPECT_EQ(whole.steps.size(), steps) << word;
    }
}

TEST(PlanChanges, EveryFieldOfAStepThatDiffersIsTold) {
    const StagePlan plan = small_plan();
    StagePlan now = plan;
    now.stages[0].steps[1] = {"a2", "Step two", "why", "lash", {"rocker"}, "torque"};
    const PlanInBuild build = begun(plan);
    const auto changes = plan_changes(build, now);
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes[0].kind, PlanChangeKind::changed);
    EXPECT_EQ(changes[0].id, "a2");
    EXPECT_EQ(changes[0].stage, "a");
    EXPECT_EQ(changes[0].stage_title, "A");
    const std::vector<PlanFieldChange> expected{{"title", "Step a2", "Step two"},
                                                {"detail", std::nullopt, "why"},
                                                {"caution", std::nullopt, "torque"},
                                                {"sheet_kind", std::nullopt, "lash"},
                                                {"part_roles", std::nullopt, "rocker"}};
    EXPECT_EQ(changes[0].fields, expected);
    PlanInBuild after = taken(build, now, {"a2"});
    const Step& step = step_of(after, "small:a2");
    EXPECT_EQ(step.title, "Step two");
    EXPECT_EQ(step.part_roles, "rocker");
    EXPECT_EQ(step.id, changes[0].record_id);
    EXPECT_TRUE(plan_changes(after, now).empty());
}

TEST(PlanChanges, StagesAndGatesAreComparedToo) {
    StagePlan now = small_plan();
    now.stages[1].caution = "torque";
    now.stages[0].gates[0].needs = {{NeedKind::steps}, {NeedKind::cures}};
    const auto changes = plan_changes(begun(small_plan()), now);
    ASSERT_EQ(changes.size(), 2U);
    EXPECT_EQ(changes[0].item, RecordKind::gate);
    EXPECT_EQ(changes[0].fields[0], (PlanFieldChange{"needs", "steps", "steps; cures"}));
    EXPECT_EQ(changes[1].item, RecordKind::stage);
    EXPECT_EQ(changes[1].fields[0], (PlanFieldChange{"caution", "lifting", "torque"}));
}

TEST(PlanChanges, AnAddedStepComesInWhereThePlanHasItAndTicksStay) {
    StagePlan now = small_plan();
    now.stages[0].steps.insert(now.stages[0].steps.begin() + 2, {"new", "New step"});
    now.stages[0].steps.insert(now.stages[0].steps.begin(), {"first", "First of all"});
    PlanInBuild build = begun(small_plan());
    step_of(build, "small:a3").ticked_at = "2026-11-30T10:00:00Z";
    EXPECT_EQ(titles(taken(build, now, {"new"}), "A"),
              (std::vector<std::string>{"Step a1", "Step a2", "New step", "Step a3", "Step a4"}));
    PlanInBuild both = taken(build, now, {"new", "first"});
    EXPECT_EQ(titles(both, "A"), (std::vector<std::string>{"First of all", "Step a1", "Step a2",
                                                           "New step", "Step a3", "Step a4"}));
    EXPECT_TRUE(step_of(both, "small:a3").ticked_at.has_value());
    EXPECT_FALSE(step_of(both, "small:new").ticked_at.has_value());
    EXPECT_LT(step_of(both, "small:new").id, 0);
}

TEST(PlanChanges, OnlyWhatIsChosenIsTaken) {
    StagePlan now = small_plan();
    now.stages[0].steps[0].title = "Other one";
    now.stages[0].steps[1].title = "Other two";
    PlanInBuild after = taken(begun(small_plan()), now, {"a2"});
    EXPECT_EQ(step_of(after, "small:a1").title, "Step a1");
    EXPECT_EQ(step_of(after, "small:a2").title, "Other two");
    const auto left = plan_changes(after, now);
    ASSERT_EQ(left.size(), 1U);
    EXPECT_EQ(left[0].id, "a1");
}

TEST(PlanChanges, AMovedStepIsToldAloneAndMoves) {
    StagePlan now = small_plan();
    std::rotate(now.stages[0].steps.begin(), now.stages[0].steps.begin() + 3,
                now.stages[0].steps.end());
    const auto changes = plan_changes(begun(small_plan()), now);
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes[0].id, "a4");
    EXPECT_EQ(changes[0].fields[0], (PlanFieldChange{"after", "Step a3", std::nullopt}));
    EXPECT_EQ(titles(taken(begun(small_plan()), now, {"a4"}), "A"),
              (std::vector<std::string>{"Step a4", "Step a1", "Step a2", "Step a3"}));
}

TEST(PlanChanges, StepsOfTheBuildsOwnStayWhereTheyAre) {
    PlanInBuild build = begun(small_plan());
    Step own;
    own.id = 900;
    own.stage_id = build.stages[0].id;
    own.ordinal = 2;
    own.title = "Customer's wish";
    build.steps.push_back(own);
    EXPECT_TRUE(plan_changes(build, small_plan()).empty());
    StagePlan now = small_plan();
    now.stages[0].steps.push_back({"a5", "Step a5"});
    const auto names = titles(taken(build, now, {"a5"}), "A");
    EXPECT_EQ(names, (std::vector<std::string>{"Step a1", "Step a2", "Customer's wish", "Step a3",
                                               "Step a4", "Step a5"}));
}

TEST(PlanChanges, WhatIsGoneIsTakenOutUnlessItWasDoneOrIsNamed) {
    StagePlan now = small_plan();
    now.stages[0].steps.erase(now.stages[0].steps.begin(), now.stages[0].steps.begin() + 3);
    now.stages[0].gates.clear();
    PlanInBuild build = begun(small_plan());
    step_of(build, "small:a1").ticked_at = "2026-11-30T10:00:00Z";
    const std::int64_t named = step_of(build, "small:a2").id;
    const std::int64_t gate = build.gates[0].id;
    const auto changes = plan_changes(build, now);
    ASSERT_EQ(changes.size(), 3U);
    EXPECT_EQ(changes[0].id, "a2");
    EXPECT_EQ(changes[1].id, "a3");
    EXPECT_EQ(changes[2].id, "ag");
    const TakenPlan result =
        take_plan_changes(build, now, {"a2", "a3", "ag"},
                          {{RecordKind::step, named}, {RecordKind::gate, gate}}, "not in the plan");
    PlanInBuild after = result.after;
    EXPECT_EQ(titles(after, "A"), (std::vector<std::string>{"Step a1", "Step a2", "Step a4"}));
    EXPECT_EQ(step_of(after, "small:a2").not_needed, "not in the plan");
    EXPECT_FALSE(step_of(after, "small:a1").not_needed.has_value());
    EXPECT_EQ(result.kept, std::vector<std::string>{"ag"});
    EXPECT_EQ(after.gates.size(), 1U);
    EXPECT_EQ(plan_changes(after, now).size(), 1U); // the gate
}

TEST(PlanChanges, AStageComesAndGoesWithAllThatIsInIt) {
    StagePlan now = small_plan();
    now.stages.pop_back();
    now.stages.insert(now.stages.begin() + 1,
                      {"c", "C", std::nullopt, {{"c1", "Step c1"}, {"c2", "Step c2"}}, {}});
    const PlanInBuild build = begun(small_plan());
    EXPECT_EQ(plan_changes(build, now).back().stage_title, "B");
    PlanInBuild after = taken(build, now, {"b", "c"});
    EXPECT_EQ(after.stages.size(), 2U);
    EXPECT_TRUE(titles(after, "B").empty());
    EXPECT_EQ(titles(after, "C"), (std::vector<std::string>{"Step c1", "Step c2"}));
    EXPECT_TRUE(plan_changes(after, now).empty());
    // One step alone brings its stage.
    EXPECT_EQ(titles(taken(build, now, {"c2"}), "C"), std::vector<std::string>{"Step c2"});
    // A stage in which something was done isn't told as gone.
    PlanInBuild done = build;
    step_of(done, "small:b1").ticked_at = "2026-11-30T10:00:00Z";
    for (const PlanChange& change : plan_changes(done, now)) {
        EXPECT_NE(change.kind, PlanChangeKind::gone) << change.id;
    }
}

TEST(PlanChanges, AnotherPlansItemsAreNotTouched) {
    StagePlan other = small_plan();
    other.word = "other";
    const PlanInBuild build = begun(small_plan());
    for (const PlanChange& change : plan_changes(build, other)) {
        EXPECT_EQ(change.kind, PlanChangeKind::added) << change.id;
    }
    StagePlan longer = small_plan();
    longer.word = "smal";
    EXPECT_EQ(plan_changes(build, longer).size(), 8U);
}

/// Takes a step or stage out, changes one, brings one in, or moves one.
void change_at_random(StagePlan& plan, std::mt19937& random) {
    const auto upto = [&](std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
    };
    PlannedStage& stage = plan.stages[upto(plan.stages.size())];
    auto& steps = stage.steps;
    const std::size_t which = upto(6);
    if (which == 0 && plan.stages.size() > 2) {
        plan.stages.erase(plan.stages.begin() + static_cast<long>(upto(plan.stages.size())));
    } else if (which == 1) {
        const std::string id = free_plan_id(plan, "New stage");
        plan.stages.insert(plan.stages.begin() + static_cast<long>(upto(plan.stages.size())),
                           PlannedStage{id, id, {}, {{id + "_step", "Step"}}, {}});
    } else if (which == 2) {
        std::swap(plan.stages[upto(plan.stages.size())], plan.stages[upto(plan.stages.size())]);
    } else if (steps.empty() || which == 3) {
        const std::string id = free_plan_id(plan, "New step");
        steps.insert(steps.begin() + static_cast<long>(upto(steps.size() + 1)), {id, id});
    } else if (which == 4) {
        std::swap(steps[upto(steps.size())], steps[upto(steps.size())]);
    } else {
        steps.erase(steps.begin() + static_cast<long>(upto(steps.size())));
    }
}

TEST(PlanChanges, TakingEverythingLeavesTheBuildAsANewOneWouldBe) {
    std::mt19937 random(77);
    for (int round = 0; round < 200; ++round) {
        const StagePlan before =
            tests::built_in_plan(tests::built_in_plan_words[static_cast<std::size_t>(round) % 5]);
        StagePlan now = before;
        for (int change = 0; change < 8; ++change) {
            change_at_random(now, random);
        }
        const PlanInBuild build = begun(before);
        std::set<std::string> all;
        for (const PlanChange& change : plan_changes(build, now)) {
            all.insert(change.id);
        }
        const PlanInBuild after = taken(build, now, all);
        EXPECT_TRUE(plan_changes(after, now).empty()) << round;
        const PlanInBuild fresh = plan_for_new_build(now, 7);
        ASSERT_EQ(after.steps.size(), fresh.steps.size()) << round;
        for (const Stage& stage : fresh.stages) {
            EXPECT_EQ(titles(after, stage.title), titles(fresh, stage.title)) << round;
        }
    }
}

} // namespace
} // namespace rodway
