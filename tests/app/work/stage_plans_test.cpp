#include "app/work/stage_plans.h"

#include <gtest/gtest.h>

#include <QTemporaryDir>
#include <algorithm>

#include "app/first_run/new_build.h"
#include "app/work/own_sheet.h"
#include "core/files/stage_plan_file.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/history.h"
#include "db/stage_store.h"

namespace rodway {
namespace {

class StagePlansTest : public ::testing::Test {
  protected:
    void SetUp() override {
        auto shop = ShopFile::create(folder_.filePath("shop.rodway").toStdString());
        ASSERT_TRUE(shop.ok());
        session_ = std::make_unique<ShopSession>(std::move(shop).value(), "KL");
    }
    ShopFile& shop() { return session_->shop(); }
    std::int64_t new_build(const std::string& plan) {
        Build build;
        build.name = "Blue pickup";
        build.customer = "Ada";
        build.engine = "Six";
        const auto id = create_build(*session_, build, {}, plan);
        EXPECT_TRUE(id.ok()) << plan;
        return id ? *id : 0;
    }
    StagePlan plan(const std::string& word) {
        const auto found = find_plan(shop(), word);
        EXPECT_TRUE(found.ok()) << word;
        return *found;
    }
    void keep(const StagePlan& plan) {
        const auto kept = keep_plan(*session_, write_stage_plan_file(plan));
        EXPECT_TRUE(kept.ok());
    }
    PlanInBuild in_build(std::int64_t id) { return *plan_in_build(shop(), id); }
    Step step(std::int64_t build, const std::string& item) {
        for (const Step& step : in_build(build).steps) {
            if (step.plan_item == item) {
                return step;
            }
        }
        ADD_FAILURE() << "no step " << item;
        return {};
    }
    std::size_t acts() { return static_cast<std::size_t>(*last_act(shop())); }

    QTemporaryDir folder_;
    std::unique_ptr<ShopSession> session_;
};

TEST_F(StagePlansTest, ABuildBeginsWithAllOfItsPlanAsOneActThatIsUndoneWhole) {
    for (const StagePlan& plan : built_in_plans()) {
        const std::size_t before = acts();
        const std::int64_t id = new_build(plan.word);
        EXPECT_EQ(acts(), before + 1) << plan.word;
        EXPECT_EQ(load_build(shop(), id)->plan, plan.word);
        const auto stages = stages_with_steps(shop(), id);
        ASSERT_EQ(stages->size(), plan.stages.size()) << plan.word;
        std::size_t gates = 0;
        for (std::size_t at = 0; at < plan.stages.size(); ++at) {
            const PlannedStage& planned = plan.stages[at];
            const StageWithSteps& made = (*stages)[at];
            EXPECT_EQ(made.stage.title, planned.title);
            EXPECT_EQ(made.stage.caution, planned.caution);
            EXPECT_EQ(made.stage.plan_item, plan.word + ":" + planned.id);
            ASSERT_EQ(made.steps.size(), planned.steps.size()) << planned.title;
            for (std::size_t which = 0; which < made.steps.size(); ++which) {
                const PlannedStep& wanted = planned.steps[which];
                const Step& step = made.steps[which];
                EXPECT_EQ(step.title, wanted.title);
                EXPECT_EQ(step.detail, wanted.detail);
                EXPECT_EQ(step.sheet_kind, wanted.sheet);
                EXPECT_EQ(step.caution, wanted.caution);
                EXPECT_EQ(step.plan_item, plan.word + ":" + wanted.id);
                EXPECT_FALSE(step.ticked_at.has_value());
            }
            gates += planned.gates.size();
        }
        const PlanInBuild whole = in_build(id);
        ASSERT_EQ(whole.gates.size(), gates) << plan.word;
        for (const Gate& gate : whole.gates) {
            EXPECT_TRUE(parse_needs(gate.needs.value_or("")).ok()) << gate.title;
        }
        EXPECT_TRUE(changes_of_plan(shop(), *load_build(shop(), id))->empty());
        ASSERT_TRUE(session_->undo().ok());
        EXPECT_TRUE(load_builds(shop())->empty());
        EXPECT_TRUE(in_build(id).steps.empty());
        EXPECT_TRUE(in_build(id).gates.empty());
    }
    EXPECT_TRUE(shop().check()->findings.empty());
}

TEST_F(StagePlansTest, AnUnknownPlanIsRefusedWithThoseThatThereAre) {
    const auto id = create_build(*session_, {}, {}, "port_tubes");
    ASSERT_FALSE(id.ok());
    EXPECT_EQ(id.error().field, "plan");
    EXPECT_NE(id.error().expected.find("complete_build"), std::string::npos);
    EXPECT_EQ(acts(), 0U);
}

TEST_F(StagePlansTest, TheShopsOwnPlanGoesBeforeTheBuiltInOneUntilItIsLetGo) {
    StagePlan own = plan("refresh");
    own.title = "Our refresh";
    own.stages.resize(2);
    keep(own);
    EXPECT_EQ(plan("refresh"), own);
    auto known = *known_plans(shop());
    ASSERT_EQ(known.size(), 5U);
    EXPECT_EQ(known[1].title, "Our refresh");
    EXPECT_TRUE(known[1].own && known[1].built_in);
    EXPECT_FALSE(known[0].own);
    EXPECT_EQ(in_build(new_build("refresh")).stages.size(), 2U);

    // Kept again, it is the same record; under another word it is another plan.
    own.stages.resize(1);
    keep(own);
    EXPECT_EQ(load_records<ShopPlan>(shop(), shop_wide)->size(), 1U);
    own.word = "boats";
    keep(own);
    known = *known_plans(shop());
    ASSERT_EQ(known.size(), 6U);
    EXPECT_EQ(known[5].word, "boats");
    EXPECT_FALSE(known[5].built_in);

    ASSERT_TRUE(let_plan_go(*session_, "refresh").ok());
    EXPECT_EQ(plan("refresh"), built_in_plans()[1]);
    EXPECT_EQ(let_plan_go(*session_, "refresh").error().field, "plan");
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(plan("refresh").title, "Our refresh");
}

TEST_F(StagePlansTest, ABadTextIsRefusedWithItsLineAndNothingIsChanged) {
    std::string text = *plan_text(shop(), "head_work");
    const auto at = text.find("\"caution\": \"lifting\"");
    text.replace(at, 20, "\"caution\": \"lifting!\"");
    const auto kept = keep_plan(*session_, text);
    ASSERT_FALSE(kept.ok());
    EXPECT_EQ(kept.error().value, "lifting!");
    EXPECT_EQ(kept.error().line,
              1 + std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
    EXPECT_EQ(acts(), 0U);
    EXPECT_TRUE(load_records<ShopPlan>(shop(), shop_wide)->empty());
}

TEST_F(StagePlansTest, AShopsOwnSheetMayStandInItsPlanAndInNoOtherShops) {
    StagePlan own = plan("head_work");
    own.stages[0].steps[0].sheet = "own_tip_height";
    const std::string text = write_stage_plan_file(own);
    EXPECT_EQ(keep_plan(*session_, text).error().value, "own_tip_height");
    OwnSheet sheet{"Tip height", {}};
    sheet.lines.push_back({"Height", Form::length, "in", Place::valve, {}, {}, {}});
    ASSERT_TRUE(keep_own_sheet(*session_, sheet).ok());
    ASSERT_TRUE(keep_plan(*session_, text).ok());
    EXPECT_EQ(in_build(new_build("head_work")).steps[0].sheet_kind, "own_tip_height");
}

TEST_F(StagePlansTest, ARunningBuildTakesOverWhatIsChosenAndKeepsItsTicks) {
    const std::int64_t id = new_build("head_work");
    const Build build = *load_build(shop(), id);
    ASSERT_TRUE(
        session_
            ->act(edits_to_tick(step(id, "head_work:tag"), "KL", "2026-11-30T10:00:00Z"), "tick")
            .ok());
    StagePlan now = plan("head_work");
    auto& arrival = now.stages[1].steps;
    const auto tag = std::find_if(arrival.begin(), arrival.end(),
                                  [](const PlannedStep& one) { return one.id == "tag"; });
    tag->title = "Tagged, both heads";
    arrival.insert(tag + 1, {"crates", "Crates kept"});
    arrival.erase(std::find_if(arrival.begin(), arrival.end(),
                               [](const PlannedStep& one) { return one.id == "arrival_photos"; }));
    keep(now);
    // Nothing changes by itself.
    EXPECT_EQ(step(id, "head_work:tag").title,
              "Engine and every loose piece tagged with the job's "
              "number");
    const auto changes = changes_of_plan(shop(), build);
    ASSERT_EQ(changes->size(), 3U);

    const std::size_t before = acts();
    const PlanInBuild as_it_was = in_build(id);
    const auto kept = take_over(*session_, build, {"tag", "crates", "arrival_photos"});
    ASSERT_TRUE(kept.ok());
    EXPECT_TRUE(kept->empty());
    EXPECT_EQ(acts(), before + 1);
    EXPECT_EQ(step(id, "head_work:tag").title, "Tagged, both heads");
    EXPECT_EQ(step(id, "head_work:tag").ticked_by, "KL");
    EXPECT_EQ(step(id, "head_work:crates").ordinal, step(id, "head_work:tag").ordinal + 1);
    EXPECT_EQ(step(id, "head_work:crates").stage_id, step(id, "head_work:tag").stage_id);
    EXPECT_EQ(in_build(id).steps.size(), as_it_was.steps.size());
    EXPECT_TRUE(changes_of_plan(shop(), build)->empty());

    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(in_build(id).steps.size(), as_it_was.steps.size());
    EXPECT_EQ(step(id, "head_work:arrival_photos").title,
              "Photos all round as it came, before "
              "anything is touched");
    EXPECT_EQ(changes_of_plan(shop(), build)->size(), 3U);
    EXPECT_TRUE(shop().check()->findings.empty());
}

TEST_F(StagePlansTest, AStepThatANoteNamesIsNotTakenOutButNoLongerNeeded) {
    const std::int64_t id = new_build("head_work");
    const Build build = *load_build(shop(), id);
    Note note;
    note.id = 1;
    note.build_id = id;
    note.step_id = step(id, "head_work:tag").id;
    note.text = "red tag";
    note.written_by = "KL";
    note.written_at = "2026-11-30T10:00:00Z";
    ASSERT_TRUE(session_->act(edits_to_create(note), "note").ok());
    StagePlan now = plan("head_work");
    std::erase_if(now.stages[1].steps, [](const PlannedStep& one) {
        return one.id == "tag" || one.id == "arrival_photos";
    });
    keep(now);
    ASSERT_TRUE(take_over(*session_, build, {"tag", "arrival_photos"}).ok());
    EXPECT_EQ(step(id, "head_work:tag").not_needed, "no longer in the plan");
    const auto steps = in_build(id).steps;
    EXPECT_TRUE(std::none_of(steps.begin(), steps.end(), [](const Step& one) {
        return one.plan_item == "head_work:arrival_photos";
    }));
    EXPECT_TRUE(changes_of_plan(shop(), build)->empty());
}

TEST_F(StagePlansTest, WholeStagesComeAndGo) {
    const std::int64_t id = new_build("head_work");
    const Build build = *load_build(shop(), id);
    StagePlan now = plan("head_work");
    now.stages.erase(now.stages.begin() + 3);
    now.stages.push_back({"follow_up", "Follow-up", {}, {{"ring", "Rung up"}}, {}});
    keep(now);
    ASSERT_TRUE(take_over(*session_, build, {"machining", "follow_up"}).ok());
    const auto stages = stages_with_steps(shop(), id);
    ASSERT_EQ(stages->size(), now.stages.size());
    for (std::size_t at = 0; at < now.stages.size(); ++at) {
        EXPECT_EQ((*stages)[at].stage.title, now.stages[at].title);
        EXPECT_EQ((*stages)[at].steps.size(), now.stages[at].steps.size());
    }
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(in_build(id).stages.size(), 6U);
    EXPECT_TRUE(shop().check()->findings.empty());
}

TEST_F(StagePlansTest, WhatNoChangeIsCalledIsRefused) {
    const std::int64_t id = new_build("head_work");
    const auto taken = take_over(*session_, *load_build(shop(), id), {"tag"});
    ASSERT_FALSE(taken.ok());
    EXPECT_EQ(taken.error().value, "tag");
    Build without;
    without.id = 5;
    without.name = "Old one";
    ASSERT_TRUE(session_->act(edits_to_create(without), "build").ok());
    EXPECT_EQ(changes_of_plan(shop(), without).error().field, "plan");
}

} // namespace
} // namespace rodway
