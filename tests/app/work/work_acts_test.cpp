#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QTemporaryDir>

#include "app/edit_stack/shop_session.h"
#include "app/work/build_state.h"
#include "app/work/cure_acts.h"
#include "app/work/open_item_acts.h"
#include "app/work/part_acts.h"
#include "app/work/sign_offs.h"
#include "app/work/ticks.h"
#include "app/work/waivers.h"
#include "db/build_facts.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

/// A build with one stage of one step and a gate that waits for the step, in the hands of MH.
class WorkActsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        const std::string path = folder_.filePath("shop.rodway").toStdString();
        auto shop = ShopFile::create(path);
        ASSERT_TRUE(shop.ok());
        session_ = std::make_unique<ShopSession>(std::move(shop).value(), "MH");
        std::vector<Edit> edits;
        const auto keep = [&](const auto& record) {
            for (Edit& edit : edits_to_create(record)) edits.push_back(std::move(edit));
        };
        Build build;
        build.id = 1;
        build.name = "Blue pickup";
        keep(build);
        keep(Stage{1, 1, 1, "Heads on", {}});
        keep(Step{1, 1, 1, "Gaskets", {}, {}});
        keep(Gate{1, 1, 1, "Heads are on", "steps", {}});
        ASSERT_TRUE(session_->act(edits, "build").ok());
    }

    [[nodiscard]] BuildState state() {
        auto loaded = load_build_state(session_->shop(), 1, Moment::present());
        EXPECT_TRUE(loaded.ok());
        return std::move(loaded).value();
    }
    [[nodiscard]] BuildFacts facts() { return state().facts.records; }

    /// What the work did was one act, which can be undone and done again.
    template <typename Look>
    void expect_one_act(const Look& look) {
        const auto after = look(facts());
        const auto acts = last_act(session_->shop());
        ASSERT_TRUE(session_->undo().ok());
        EXPECT_NE(look(facts()), after);
        ASSERT_TRUE(session_->redo().ok());
        EXPECT_EQ(look(facts()), after);
        EXPECT_EQ(*last_act(session_->shop()), *acts + 2);
    }

    QTemporaryDir folder_;
    std::unique_ptr<ShopSession> session_;
};

TEST_F(WorkActsTest, ATickAndItsTakingBackAreActs) {
    ASSERT_TRUE(tick(*session_, facts().steps[0]).ok());
    EXPECT_EQ(facts().steps[0].ticked_by, "MH");
    expect_one_act([](const BuildFacts& all) { return all.steps[0].ticked_at; });
    ASSERT_TRUE(untick(*session_, facts().steps[0]).ok());
    EXPECT_EQ(facts().steps[0].ticked_by, std::nullopt);
}

TEST_F(WorkActsTest, ASignOffIsOneActOfGateAndStage) {
    EXPECT_EQ(sign_off(*session_, state().facts, 1).error().expected, "held_up");
    EXPECT_TRUE(facts().sign_offs.empty());
    ASSERT_TRUE(tick(*session_, facts().steps[0]).ok());
    const auto id = sign_off(*session_, state().facts, 1, "all well");
    ASSERT_TRUE(id.ok());
    const auto signed_off = facts().sign_offs;
    ASSERT_EQ(signed_off.size(), 2u);
    EXPECT_EQ(signed_off[0].gate_id, 1);
    EXPECT_EQ(signed_off[1].stage_id, 1);
    EXPECT_EQ(signed_off[1].id, *id);
    EXPECT_EQ(signed_off[1].signed_by, "MH");
    EXPECT_EQ(signed_off[1].program_version, QCoreApplication::applicationVersion().toStdString());
    EXPECT_TRUE(state().stages[0].passed);
    expect_one_act([](const BuildFacts& all) { return all.sign_offs.size(); });

    EXPECT_EQ(take_back_sign_off(*session_, facts(), 1, " ").error().code, ErrorCode::empty_text);
    ASSERT_TRUE(take_back_sign_off(*session_, facts(), 1, "a leak").ok());
    for (const SignOff& one : facts().sign_offs) {
        EXPECT_EQ(one.withdrawn_by, "MH");
        EXPECT_EQ(one.withdrawn_reason, "a leak");
    }
    EXPECT_FALSE(state().stages[0].passed);
    EXPECT_EQ(take_back_sign_off(*session_, facts(), 1, "again").error().code,
              ErrorCode::no_such_record);
    expect_one_act([](const BuildFacts& all) { return all.sign_offs[0].withdrawn_at; });
}

TEST_F(WorkActsTest, AWaiverNamesWhoAndUntilWhen) {
    const Holds holds = holds_of_stage(state().facts, 1);
    EXPECT_EQ(waive(*session_, 1, holds, "step/1", {"later", true, "3/1"}).error().field, "until");
    EXPECT_TRUE(facts().waivers.empty());
    ASSERT_TRUE(waive(*session_, 1, holds, "step/1", {"later", true, "2999-3-1"}).ok());
    const Waiver waiver = facts().waivers.at(0);
    EXPECT_EQ(waiver.until, "2999-03-01");
    EXPECT_EQ(waiver.waived_by, "MH");
    EXPECT_EQ(waiver.hold, "step/1");
    EXPECT_TRUE(waiver.customer_told);
    EXPECT_EQ(state().stages[0].waived, 1);
    expect_one_act([](const BuildFacts& all) { return all.waivers.size(); });
}

TEST_F(WorkActsTest, APartsTextsAreChecked) {
    PartRecord part;
    part.build_id = 1;
    part.item = "  manifold bolt ";
    part.role = "intake_bolt";
    part.length = "1.25 in";
    part.promised = "2026-3-9";
    const auto id = add_part(*session_, part);
    ASSERT_TRUE(id.ok());
    EXPECT_EQ(facts().parts[0].item, "manifold bolt");
    EXPECT_EQ(facts().parts[0].promised, "2026-03-09");
    const auto refused = [&](auto change, const char* field) {
        PartRecord wrong = part;
        change(wrong);
        const auto answer = add_part(*session_, wrong);
        EXPECT_FALSE(answer.ok());
        EXPECT_EQ(answer.error().field, field);
    };
    refused([](PartRecord& one) { one.item = " "; }, "item");
    refused([](PartRecord& one) { one.role = "manifold_bolt"; }, "role");
    refused([](PartRecord& one) { one.role = "intake_bolt, head_bolt"; }, "role");
    refused([](PartRecord& one) { one.length = "long"; }, "length");
    refused([](PartRecord& one) { one.fitted = "3/1/2026"; }, "fitted");
    EXPECT_EQ(facts().parts.size(), 1u);
}

TEST_F(WorkActsTest, AMarkSetsItsDayAndSizesInOneAct) {
    PartRecord part;
    part.build_id = 1;
    part.item = "bolt";
    part.length = "1.25 in";
    ASSERT_TRUE(add_part(*session_, part).ok());
    ASSERT_TRUE(mark_part(*session_, facts().parts[0], PartMark::measured, "2026-3-9",
                          {"1.5 in", {}, "3/8-16"})
                    .ok());
    EXPECT_EQ(facts().parts[0].measured, "2026-03-09");
    EXPECT_EQ(facts().parts[0].length, "1.5 in");
    EXPECT_EQ(facts().parts[0].thread, "3/8-16");
    expect_one_act([](const BuildFacts& all) {
        return all.parts[0].measured.value_or("-") + all.parts[0].length.value_or("-");
    });
    ASSERT_TRUE(mark_part(*session_, facts().parts[0], PartMark::failed, "bent").ok());
    EXPECT_EQ(facts().parts[0].failed, "bent");
    EXPECT_EQ(mark_part(*session_, facts().parts[0], PartMark::failed, " ").error().field,
              "failed");
    ASSERT_TRUE(mark_part(*session_, facts().parts[0], PartMark::failed, std::nullopt).ok());
    EXPECT_EQ(facts().parts[0].failed, std::nullopt);
    for (const PartMark mark : part_marks()) {
        EXPECT_EQ(part_mark_called(part_mark_word(mark)), mark);
    }
}

TEST_F(WorkActsTest, ACureTakesTheLabelsTimes) {
    Product product;
    product.name = "anaerobic";
    product.handling_minutes = 30;
    product.full_minutes = 1440;
    const auto product_id = add_product(*session_, product);
    ASSERT_TRUE(product_id.ok());
    product.id = *product_id;
    Cure cure;
    cure.build_id = 1;
    cure.place = "tubes, left";
    cure.full_minutes = 2880; // a cold shop
    ASSERT_TRUE(start_cure(*session_, cure, product).ok());
    EXPECT_EQ(facts().cures[0].handling_minutes, 30);
    EXPECT_EQ(facts().cures[0].full_minutes, 2880);
    EXPECT_EQ(facts().cures[0].product_id, product.id);
    EXPECT_EQ(facts().cures[0].applied_by, "MH");
    cure.full_minutes.reset();
    ASSERT_TRUE(start_cure(*session_, cure).ok());
    EXPECT_EQ(facts().cures[1].full_minutes, std::nullopt); // not known, and not 0
    cure.handling_minutes = 60;
    cure.full_minutes = 30;
    EXPECT_EQ(start_cure(*session_, cure).error().field, "full_minutes");
    cure.place = " ";
    EXPECT_EQ(start_cure(*session_, cure).error().field, "place");

    ASSERT_TRUE(end_cure(*session_, facts().cures[0], "hard").ok());
    EXPECT_TRUE(facts().cures[0].ended.has_value());
    EXPECT_EQ(facts().cures[0].note, "hard");
    expect_one_act([](const BuildFacts& all) { return all.cures[0].ended; });
    EXPECT_EQ(end_cure(*session_, facts().cures[0]).error().expected, "ended");
}

TEST_F(WorkActsTest, AnOpenItemIsClosedWithWhatCameOfIt) {
    OpenItem item;
    item.build_id = 1;
    item.title = "temporary studs";
    item.due = "2026-3-9";
    item.gate_id = 1;
    ASSERT_TRUE(add_open_item(*session_, item).ok());
    EXPECT_EQ(facts().open_items[0].due, "2026-03-09");
    EXPECT_EQ(facts().open_items[0].opened_by, "MH");
    expect_one_act([](const BuildFacts& all) { return all.open_items.size(); });
    EXPECT_EQ(close_open_item(*session_, facts().open_items[0], "").error().field, "outcome");
    ASSERT_TRUE(close_open_item(*session_, facts().open_items[0], "replaced").ok());
    EXPECT_EQ(facts().open_items[0].outcome, "replaced");
    expect_one_act([](const BuildFacts& all) { return all.open_items[0].closed_at; });
    EXPECT_EQ(close_open_item(*session_, facts().open_items[0], "again").error().expected,
              "closed");
    item.title.clear();
    EXPECT_EQ(add_open_item(*session_, item).error().field, "title");
}

} // namespace
} // namespace rodway
