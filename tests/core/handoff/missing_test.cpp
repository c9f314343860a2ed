#include "core/handoff/missing.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/build/part_role.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

/// A build that lacks nothing; each test takes something away.
class MissingTest : public ::testing::Test {
  protected:
    MissingTest() {
        work_.records.build.id = 1;
        work_.records.build.customer_id = 2;
        shop_ = {{1, "name", "A shop"}};
        Photo photo;
        photo.id = 5;
        photo.in_book = true;
        photo.caption = "The block";
        photos_ = {photo};
        put("lash_hot", "3I", ".026");
        put("pull_ignition_timing", "pull 1", "34 btdc");
        put("oil_used", "", "20W-50");
        put("joint_steps", "head left", "45/65");
        put("break_in_time", "2026-03-01", "20");
        put("seal_numbers", "", "4411");
        put("pull_torque", "pull 1 4500 rpm", "400");
    }
    void put(const char* quantity, const char* position, const char* text) {
        Reading one;
        one.id = static_cast<std::int64_t>(readings_.size()) + 1;
        one.quantity = quantity;
        one.position = position;
        one.text = text;
        readings_.push_back(one);
    }
    void forget(const char* quantity) {
        std::erase_if(readings_, [&](const Reading& one) { return one.quantity == quantity; });
    }
    [[nodiscard]] std::vector<MissingFact> missing() const {
        const TakenReadings taken(readings_);
        return missing_for_book({work_, shop_, photos_, gone_, taken, engine_, rods_, service_});
    }
    /// The only thing missing.
    [[nodiscard]] MissingFact only() const {
        const auto all = missing();
        EXPECT_EQ(all.size(), 1U);
        return all.empty() ? MissingFact{} : all.front();
    }

    HoldFacts work_;
    std::vector<ShopDetail> shop_;
    std::vector<Photo> photos_;
    std::vector<std::int64_t> gone_;
    std::vector<Reading> readings_;
    bool engine_ = true;
    std::vector<std::pair<ValvePosition, std::optional<Verdict>>> rods_;
    std::optional<std::string> service_ = "Lash after 500 miles";
};

TEST_F(MissingTest, ABuildThatHasAllLacksNothing) {
    EXPECT_TRUE(missing().empty());
}

TEST_F(MissingTest, ARodThatIsNotSafeIsNamedBeforeAllElse) {
    const auto valve = [](int cylinder) { return ValvePosition{cylinder, ValveKind::intake, 1}; };
    rods_ = {{valve(1), Verdict::passed},
             {valve(2), Verdict::passed_little_room},
             {valve(3), Verdict::passed_for_now}};
    EXPECT_TRUE(missing().empty());
    rods_ = {{valve(1), Verdict::too_close_to_call},
             {valve(2), Verdict::contact},
             {valve(3), Verdict::passed},
             {valve(4), std::nullopt},
             {valve(5), Verdict::failed},
             {valve(6), Verdict::contact},
             {valve(7), Verdict::no_doubt_given}};
    shop_.clear();
    const auto found = missing();
    ASSERT_EQ(found.size(), 4U);
    EXPECT_EQ(found[0].kind, MissingKind::rod_touches);
    EXPECT_EQ(found[0].subject, "2I 6I");
    EXPECT_EQ(found[1].kind, MissingKind::rod_fails);
    EXPECT_EQ(found[1].subject, "5I");
    EXPECT_EQ(found[2].kind, MissingKind::rod_undecided);
    EXPECT_EQ(found[2].subject, "1I 4I 7I");
    EXPECT_EQ(found[3].kind, MissingKind::shop_name);
}

TEST_F(MissingTest, NamesWhoseBookItIs) {
    shop_.clear();
    EXPECT_EQ(only().kind, MissingKind::shop_name);
    shop_ = {{1, "name", "A shop"}};
    work_.records.build.customer_id.reset();
    EXPECT_EQ(only().kind, MissingKind::customer);
    EXPECT_EQ(only().record, (RecordRef{RecordKind::build, 1}));
}

TEST_F(MissingTest, NamesEachSettingThatNobodyWroteDown) {
    forget("oil_used");
    EXPECT_EQ(only().kind, MissingKind::settings);
    EXPECT_EQ(only().topic, SettingsTopic::oil);
    EXPECT_EQ(only().subject, "oil_used");
    put("oil_used", "", "n/m"); // looked for, and not known
    EXPECT_EQ(only().topic, SettingsTopic::oil);
}

TEST_F(MissingTest, LashColdIsAsGoodAsHot) {
    forget("lash_hot");
    EXPECT_EQ(only().topic, SettingsTopic::lash);
    put("lash_cold", "3I", ".018");
    EXPECT_TRUE(missing().empty());
}

TEST_F(MissingTest, CountsTheBoxesOfASheetThatWasBegun) {
    SheetStanding begun;
    begun.kind = "pistons";
    begun.boxes_to_fill = 8;
    begun.boxes_filled = 5;
    SheetStanding untouched;
    untouched.kind = "rings";
    untouched.boxes_to_fill = 24;
    work_.sheets = {begun, untouched};
    EXPECT_EQ(only().kind, MissingKind::sheet_incomplete);
    EXPECT_EQ(only().subject, "pistons");
    EXPECT_EQ(only().count, 3);
}

TEST_F(MissingTest, AStageInWhichWorkWasDoneIsToBeSignedOff) {
    Stage stage;
    stage.id = 3;
    Step step;
    step.id = 4;
    step.stage_id = 3;
    Gate gate;
    gate.stage_id = 3;
    work_.records.stages = {stage};
    work_.records.steps = {step};
    work_.records.gates = {gate};
    EXPECT_TRUE(missing().empty()) << "nothing was done yet";
    work_.records.steps[0].ticked_at = "2026-03-01T10:00:00Z";
    EXPECT_EQ(only().kind, MissingKind::stage_unsigned);
    EXPECT_EQ(only().record, (RecordRef{RecordKind::stage, 3}));
    SignOff signed_off;
    signed_off.id = 9;
    signed_off.stage_id = 3;
    work_.records.sign_offs = {signed_off};
    EXPECT_TRUE(missing().empty());
    work_.overtaken = {9};
    EXPECT_EQ(only().kind, MissingKind::sign_off_overtaken);
    work_.records.sign_offs[0].withdrawn_at = "2026-03-02T10:00:00Z";
    EXPECT_EQ(only().kind, MissingKind::stage_unsigned);
}

TEST_F(MissingTest, APartThatIsInTheEngineHasASize) {
    PartRecord part;
    part.id = 6;
    work_.records.parts = {part};
    EXPECT_TRUE(missing().empty()) << "it isn't fitted";
    work_.records.parts[0].fitted = "2026-03-01";
    EXPECT_EQ(only().kind, MissingKind::part_without_size);
    EXPECT_EQ(only().record, (RecordRef{RecordKind::part, 6}));
    work_.records.parts[0].marking = "A4";
    EXPECT_TRUE(missing().empty());
}

TEST_F(MissingTest, AnEngineSealsServiceAndAPull) {
    engine_ = false;
    EXPECT_EQ(only().kind, MissingKind::engine);
    engine_ = true;
    service_.reset();
    EXPECT_EQ(only().kind, MissingKind::service_dates);
    service_ = "";
    EXPECT_EQ(only().kind, MissingKind::service_dates);
    service_ = "May";
    forget("seal_numbers");
    EXPECT_EQ(only().kind, MissingKind::seals);
    put("seal_numbers", "", "4411");
    forget("pull_torque");
    EXPECT_EQ(only().kind, MissingKind::no_pull);
}

TEST_F(MissingTest, PhotosThatAreChosenHaveWordsAndAFile) {
    photos_[0].caption.reset();
    EXPECT_EQ(only().kind, MissingKind::photo_without_words);
    photos_[0].caption = "The block";
    gone_ = {5};
    EXPECT_EQ(only().kind, MissingKind::photo_gone);
    EXPECT_EQ(only().record, (RecordRef{RecordKind::photo, 5}));
    photos_[0].in_book = false;
    EXPECT_EQ(only().kind, MissingKind::no_photo);
}

TEST_F(MissingTest, AQuestionThatWaitsForItsAnswer) {
    Approval asked;
    asked.id = 8;
    work_.records.approvals = {asked};
    EXPECT_EQ(only().kind, MissingKind::question_open);
    EXPECT_EQ(only().record, (RecordRef{RecordKind::approval, 8}));
    work_.records.approvals[0].answer = ApprovalAnswer::declined;
    EXPECT_TRUE(missing().empty());
}

TEST(SettingsCard, SpeaksOfQuantitiesAndRolesThatThereAre) {
    for (const SettingsGroup& group : settings_groups()) {
        for (const auto* list : {&group.quantities, &group.wanted}) {
            for (const std::string_view quantity : *list) {
                EXPECT_NE(sheet_of_quantity(quantity), nullptr) << quantity;
            }
        }
        for (const std::string_view role : group.part_roles) {
            EXPECT_TRUE(is_part_role(role)) << role;
        }
    }
}

} // namespace
} // namespace rodway
