// The build's page: steps, gates, sign-off, waivers, and a check that went stale.
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSignalSpy>

#include "tests/app/build/open_build.h"

namespace rodway {
namespace {

using StageAndGates = OpenBuild;

TEST_F(StageAndGates, ATickIsKeptWithItsNameAndTimeAndTakenBack) {
    ASSERT_TRUE(choose("steps", "Pushrods walked"));
    auto& steps = child<QListWidget>("steps");
    steps.setFocus();
    QTest::keyClick(&steps, Qt::Key_Space);
    const auto step = [&] { return all<Step>().front(); };
    EXPECT_EQ(step().ticked_by, "MH");
    EXPECT_EQ(step().ticked_at, "2026-11-30T10:00:00Z");
    EXPECT_FALSE(all<Step>()[1].ticked_at.has_value());
    settle();
    EXPECT_TRUE(shown("steps", "MH, 30 November 2026"));
    EXPECT_TRUE(shown("stage_rail", "1 of 2 steps"));
    EXPECT_EQ(steps.currentRow(), 0); // and stays in hand
    QTest::keyClick(&steps, Qt::Key_Space);
    EXPECT_FALSE(step().ticked_at.has_value());
    EXPECT_FALSE(step().ticked_by.has_value());
    settle();
    EXPECT_TRUE(shown("stage_rail", "0 of 2 steps"));
}

TEST_F(StageAndGates, AStepShowsWhatBelongsToIt) {
    ASSERT_TRUE(choose("steps", "Pushrods walked"));
    EXPECT_EQ(words_of("step_detail"), "In the order of full lift.");
    QSignalSpy wanted(page_.get(), &BuildPage::sheet_wanted);
    button("open_sheet").click();
    ASSERT_EQ(wanted.count(), 1);
    EXPECT_EQ(wanted[0][0].toString(), "rod_clearance");
    EXPECT_TRUE(child<QLabel>("step_parts").isHidden());

    ASSERT_TRUE(choose("steps", "Rails sealed"));
    EXPECT_TRUE(child<QLabel>("step_detail").isHidden());
    EXPECT_FALSE(button("open_sheet").isVisible());
    EXPECT_TRUE(words_of("step_parts").contains("not on the build's list"));
    PartRecord bolt;
    bolt.id = 1;
    bolt.build_id = 1;
    bolt.item = "Manifold bolt";
    bolt.role = "intake_bolt";
    bolt.ordered = "2026-11-20";
    put_and_see(bolt);
    EXPECT_TRUE(words_of("step_parts").contains("Manifold bolt: ordered 20 November 2026"))
        << words_of("step_parts").toStdString();
    EXPECT_TRUE(words_of("step_waits").contains("Manifold bolt"));
}

TEST_F(StageAndGates, ACautionStandsWhereTheStageHasOne) {
    const auto caution = [&] {
        for (QLabel* label : page_->findChildren<QLabel*>("caution")) {
            if (label->isVisible()) {
                return label->text();
            }
        }
        return QString();
    };
    EXPECT_TRUE(caution().contains("Turn the crank by hand"));
    EXPECT_TRUE(caution().contains("Makers' instructions"));
    page_->show_stage(oil_stage);
    EXPECT_EQ(caution(), QString());
}

TEST_F(StageAndGates, AStepIsLeftOutWithAReasonAndTakenInAgain) {
    ASSERT_TRUE(choose("steps", "Rails sealed"));
    for (QPushButton* found : page_->findChildren<QPushButton*>()) {
        if (found->text() == "Not nee&ded…") {
            found->click();
        }
    }
    AskPanel* ask = asking("Not needed in this build");
    ask->take_typed(); // without a reason
    EXPECT_TRUE(ask->is_open());
    EXPECT_FALSE(ask->form().trouble().isEmpty());
    EXPECT_FALSE(all<Step>()[1].not_needed.has_value());
    ask->form().set_text("not_needed", "cork gaskets");
    ask->take_typed();
    EXPECT_FALSE(ask->is_open());
    settle();
    EXPECT_EQ(all<Step>()[1].not_needed, "cork gaskets");
    EXPECT_TRUE(shown("steps", "Not needed: cork gaskets"));
    EXPECT_TRUE(shown("stage_rail", "1 of 2 steps"));
    for (QPushButton* found : page_->findChildren<QPushButton*>()) {
        if (found->text() == "Nee&ded after all" && found->isVisible()) {
            found->click();
        }
    }
    EXPECT_FALSE(all<Step>()[1].not_needed.has_value());
}

TEST_F(StageAndGates, AGateSaysOfEachNeedWhetherItIsMetAndOtherwiseWhatHoldsIt) {
    page_->show_tab(BuildPage::Tab::gates);
    EXPECT_TRUE(shown("gates", "Gate: Nothing touches"));
    EXPECT_TRUE(shown("gates", "cured fully: met")) << rows("gates").join('\n').toStdString();
    EXPECT_TRUE(shown("gates", "ticked or not needed: not met"));
    EXPECT_TRUE(shown("gates", "To do: Pushrods walked"));
    EXPECT_TRUE(shown("gates", "Sheet not begun: Pushrod clearance"));
    put_and_see(clearance(1, ".004"));
    EXPECT_FALSE(shown("gates", "not begun"));
    EXPECT_TRUE(shown("gates", "Failed: Pushrod clearance, 3I: .004 in"))
        << rows("gates").join('\n').toStdString();
    EXPECT_TRUE(shown("gates", "limit"));
    QSignalSpy wanted(page_.get(), &BuildPage::sheet_wanted);
    ASSERT_TRUE(choose("gates", "Failed:"));
    button("go_to_hold").click();
    ASSERT_EQ(wanted.count(), 1);
    EXPECT_EQ(wanted[0][0].toString(), "rod_clearance");
}

TEST_F(StageAndGates, AStageIsSignedOffOnceNothingHoldsIt) {
    page_->show_tab(BuildPage::Tab::gates);
    EXPECT_FALSE(button("sign_off").isEnabled());
    EXPECT_TRUE(words_of("in_the_way").contains("4 thing")) << words_of("in_the_way").toStdString();
    put_and_see(clearance(1, ".060"));
    EXPECT_TRUE(words_of("in_the_way").contains("3 thing")) << words_of("in_the_way").toStdString();
    tick_both();
    EXPECT_TRUE(button("sign_off").isEnabled());
    sign();
    ASSERT_EQ(all<SignOff>().size(), 2U); // the gate's and the stage's
    EXPECT_EQ(all<SignOff>().back().signed_by, "MH");
    EXPECT_EQ(all<SignOff>().back().verdict, "passed");
    const SignOff of_gate = all<SignOff>().front();
    EXPECT_EQ(of_gate.gate_id, 1);
    EXPECT_THAT(of_gate.value.value_or(""), ::testing::HasSubstr(".060 in")); // frozen with it
    EXPECT_TRUE(words_of("gate_state").contains("Signed off by MH"));
    EXPECT_TRUE(shown("stage_rail", "signed off by MH"));
    EXPECT_FALSE(button("sign_off").isEnabled());

    button("withdraw").click();
    AskPanel* ask = asking("Withdraw the sign-off");
    ask->take_typed();
    EXPECT_TRUE(ask->is_open()); // not without a reason
    EXPECT_FALSE(all<SignOff>().back().withdrawn_at.has_value());
    ask->form().set_text("reason", "wrong engine");
    ask->take_typed();
    settle();
    EXPECT_EQ(all<SignOff>().back().withdrawn_reason, "wrong engine");
    EXPECT_FALSE(shown("stage_rail", "signed off"));
    EXPECT_TRUE(button("sign_off").isEnabled());
}

// What was worked out before may be old by the time somebody signs.
TEST_F(StageAndGates, SigningIsRefusedWithWhatStandsInTheWayIfItCameMeanwhile) {
    page_->show_tab(BuildPage::Tab::gates);
    put_and_see(clearance(1, ".060"));
    tick_both();
    button("sign_off").click();
    AskPanel* ask = asking("Sign the stage off");
    put(clearance(2, ".002", "5E")); // by another window, not seen here yet
    ask->take_typed();
    EXPECT_TRUE(all<SignOff>().empty());
    ASSERT_FALSE(complaints_.isEmpty());
    EXPECT_TRUE(complaints_.last().contains("5E")) << complaints_.last().toStdString();
}

TEST_F(StageAndGates, AHoldIsWaivedWithReasonNameAndDay) {
    page_->show_tab(BuildPage::Tab::gates);
    put_and_see(clearance(1, ".004"));
    tick_both();
    ASSERT_TRUE(choose("gates", "Failed:"));
    ASSERT_TRUE(button("waive").isEnabled());
    button("waive").click();
    AskPanel* ask = asking("Go on past this, on purpose");
    EXPECT_EQ(ask->form().text("by"), "MH");
    ask->take_typed();
    EXPECT_TRUE(ask->is_open());
    EXPECT_TRUE(all<Waiver>().empty());
    ask->form().set_text("reason", "the customer accepts a light touch of dye");
    ask->form().set_text("until", "soon");
    ask->take_typed();
    EXPECT_TRUE(all<Waiver>().empty());
    EXPECT_TRUE(ask->form().trouble().contains("soon"));
    EXPECT_EQ(ask->form().text("reason"), "the customer accepts a light touch of dye");
    ask->form().set_text("until", "2026-12-5");
    ask->form().set_text("by", "Old Hand");
    ask->form().set_flag("customer_told", true);
    ask->take_typed();
    settle();
    ASSERT_EQ(all<Waiver>().size(), 1U);
    const Waiver waiver = all<Waiver>().front();
    EXPECT_EQ(waiver.waived_by, "Old Hand");
    EXPECT_EQ(waiver.until, "2026-12-05");
    EXPECT_TRUE(waiver.customer_told);
    EXPECT_TRUE(shown("gates", "Waived by Old Hand"));
    EXPECT_TRUE(button("sign_off").isEnabled());
    sign();
    EXPECT_EQ(all<SignOff>().back().verdict, "waived");
    EXPECT_TRUE(words_of("gate_state").contains("with exceptions"));
}

TEST_F(StageAndGates, ContactIsNeverWaivedAndSaysWhy) {
    page_->show_tab(BuildPage::Tab::gates);
    put_and_see(clearance(1, "touch"));
    tick_both();
    ASSERT_TRUE(choose("gates", "Contact:")) << rows("gates").join('\n').toStdString();
    EXPECT_FALSE(button("waive").isEnabled());
    button("waive").click();
    EXPECT_THROW(asking("Go on past this, on purpose"), std::runtime_error);
    EXPECT_TRUE(words_of("chosen_hold").contains("Contact can't be waived"));
    EXPECT_FALSE(button("sign_off").isEnabled());
    // What can be waived doesn't say so.
    put_and_see(clearance(2, ".004"));
    ASSERT_TRUE(choose("gates", "Failed:"));
    EXPECT_TRUE(button("waive").isEnabled());
    EXPECT_FALSE(words_of("chosen_hold").contains("can't be waived"));
}

// Manifold bolts were longer after the rods had passed: the commonest bent rod there is.
TEST_F(StageAndGates, ALongerBoltReopensWhatWasSignedUntilItIsCheckedAndSignedAnew) {
    PartRecord bolt;
    bolt.id = 1;
    bolt.build_id = 1;
    bolt.item = "Manifold bolt";
    bolt.role = "intake_bolt";
    bolt.length = "1.25 in";
    bolt.fitted = "2026-11-28";
    put(bolt);
    put_and_see(clearance(1, ".060"));
    tick_both();
    page_->show_tab(BuildPage::Tab::gates);
    sign();
    ASSERT_TRUE(shown("stage_rail", "signed off by MH"));

    now_ = "2026-12-01T10:00:00Z";
    PartRecord longer = bolt;
    longer.length = "1.5 in";
    const auto changed =
        apply(session_->shop(), edits_to_change(bolt, longer), "KL", "2026-12-01T09:00:00Z");
    ASSERT_TRUE(changed.ok());
    session_->look_for_changes();
    settle();
    EXPECT_TRUE(shown("stage_rail", "overtaken")) << rows("stage_rail").join('\n').toStdString();
    EXPECT_TRUE(words_of("gate_state").contains("Overtaken"));
    EXPECT_TRUE(shown("gates",
                      "Manifold bolt changed from 1.25 in to 1.5 in on 1 December 2026 "
                      "by KL"))
        << rows("gates").join('\n').toStdString();
    EXPECT_TRUE(shown("gates", "a longer bolt reaches into the pushrod's hole"));
    EXPECT_FALSE(button("sign_off").isEnabled());

    put_and_see(clearance(2, ".031"));
    EXPECT_FALSE(shown("gates", "Manifold bolt changed"));
    EXPECT_TRUE(shown("stage_rail", "overtaken")); // until somebody answers for it anew
    ASSERT_TRUE(button("sign_off").isEnabled());
    sign();
    EXPECT_TRUE(shown("stage_rail", "signed off by MH"));
    EXPECT_FALSE(shown("stage_rail", "overtaken"));
    EXPECT_EQ(all<SignOff>().size(), 4U); // what was signed before stays
}

TEST_F(StageAndGates, AStageWithoutGatesSaysSo) {
    page_->show_tab(BuildPage::Tab::gates);
    page_->show_stage(oil_stage);
    settle();
    EXPECT_TRUE(shown("gates", "Oil at every rocker")) << rows("gates").join('\n').toStdString();
    EXPECT_FALSE(shown("gates", "Nothing touches"));
}

TEST_F(StageAndGates, HostileWordsAreShownAndKeptAsTheyAre) {
    page_->show_tab(BuildPage::Tab::gates);
    put_and_see(clearance(1, ".004"));
    for (const QString& text : hostile_words()) {
        ASSERT_TRUE(choose("gates", "Failed:"));
        button("waive").click();
        AskPanel* ask = asking("Go on past this, on purpose");
        ask->form().set_text("reason", text);
        ask->form().set_text("by", text);
        ask->take_typed();
        EXPECT_FALSE(ask->is_open());
        settle();
        EXPECT_EQ(all<Waiver>().back().reason, text.toStdString());
        EXPECT_EQ(all<Waiver>().back().waived_by, text.toStdString());
        EXPECT_TRUE(shown("gates", text)) << text.toStdString();
        const auto gone =
            edits_to_remove(session_->shop(), {RecordKind::waiver, all<Waiver>().back().id});
        ASSERT_TRUE(gone.ok());
        ASSERT_TRUE(session_->act(*gone, "away").ok());
        settle();
    }
    EXPECT_TRUE(complaints_.isEmpty()) << complaints_.join('\n').toStdString();
}

// However the stages of the build before were looked at.
TEST_F(StageAndGates, AnotherBuildOpensAtItsOwnStageInHand) {
    Build other;
    other.id = 2;
    other.name = "Merrow six";
    other.customer = "Ketil Aune";
    other.engine = "Merrow 261";
    put(other);
    put(Stage{11, 2, 0, "Enquiry", std::nullopt});
    put(Stage{12, 2, 1, "Arrival", std::nullopt});
    Step done;
    done.id = 21;
    done.stage_id = 11;
    done.title = "Written down";
    done.ticked_by = "MH";
    done.ticked_at = now_;
    put(done);
    Step open;
    open.id = 22;
    open.stage_id = 12;
    open.title = "Set down on a stand";
    put(open);
    ASSERT_TRUE(choose("stage_rail", "Oil"));
    page_->take(session_.get(), 2);
    settle();
    EXPECT_TRUE(child<QListWidget>("stage_rail").currentItem()->text().startsWith("Arrival"));
    EXPECT_TRUE(words_of("next_thing").contains("Set down on a stand"));
    // Nor is anything of the build before written into this one when it is closed.
    EXPECT_EQ(child<QComboBox>("customer").currentText(), "Ketil Aune");
    page_->take(nullptr, 0);
    const auto builds = load_records<Build>(session_->shop(), 2);
    ASSERT_TRUE(builds.ok());
    ASSERT_EQ(builds->size(), 1U);
    EXPECT_EQ(builds->front().customer, "Ketil Aune");
}

} // namespace
} // namespace rodway
