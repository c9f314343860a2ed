#include "app/words/hold_words.h"

#include <gtest/gtest.h>

#include <set>

#include "core/build/check_dependence.h"

namespace rodway {
namespace {

std::string said(const QString& text) {
    return text.toStdString();
}

Hold failed() {
    Hold hold{HoldKind::check_failed, "failed/clearance/3I/95um"};
    hold.subject = clearance_check;
    hold.positions = {"3I"};
    hold.value = "0.0946 mm";
    hold.limit = ">= 0.254 mm";
    return hold;
}

TEST(HoldWords, GiveFiguresInBothUnits) {
    // 0.0946 mm / 25.4 = 0.00372 in.
    EXPECT_EQ(said(words::hold(failed())),
              "Failed: Clearance worked out from the set-up, 3I: 0.0037 in (0.0946 mm), limit at "
              "least 0.0100 in (0.254 mm)");
    Hold drag = failed();
    drag.limit = "<= 0.0762 mm";
    EXPECT_TRUE(words::hold(drag).endsWith("limit at most 0.0030 in (0.0762 mm)"))
        << said(words::hold(drag));
    Hold typed = failed();
    typed.subject = "rod_clearance";
    typed.quantity = "rod_clearance";
    typed.value = ".002-.006 in"; // as it was typed
    typed.limit = "0.25..0.5 mm";
    EXPECT_EQ(said(words::hold(typed)),
              "Failed: Pushrod clearance, 3I: .002-.006 in, limit 0.0098..0.0197 in (0.25..0.5 "
              "mm)");
    typed.value = "touch";
    typed.kind = HoldKind::contact;
    EXPECT_TRUE(words::hold(typed).contains("cured and checked again"));
}

TEST(HoldWords, SayWhatChangedWhenAndByWhom) {
    StaleCause cause;
    cause.record = {RecordKind::part, 3};
    cause.field = "length";
    cause.name = "manifold bolt";
    cause.before = "1.25 in";
    cause.now = "1.5 in";
    cause.since = "2026-03-03T12:00:00Z";
    cause.who = "MH";
    cause.reason = DependenceReason::bolt_end_near_rod;
    EXPECT_EQ(said(words::stale_cause(cause)),
              "manifold bolt changed from 1.25 in to 1.5 in on 3 March 2026 by MH");
    Hold hold{HoldKind::check_stale, "stale/rod_clearance/part 3 length act 7"};
    hold.subject = "rod_clearance";
    hold.positions = {"3I", "5E"};
    hold.causes = {cause};
    const QString line = words::hold(hold);
    EXPECT_TRUE(line.contains("Pushrod clearance, 3I, 5E")) << said(line);
    EXPECT_TRUE(line.contains("a longer bolt reaches into the pushrod's hole")) << said(line);
    cause.field = "fitted";
    cause.before.reset();
    EXPECT_EQ(said(words::stale_cause(cause)), "manifold bolt was fitted on 3 March 2026 by MH");
    cause.record.kind = RecordKind::set_up;
    cause.field = "banks/left/head/gasket";
    cause.before = ".040 in";
    cause.now.reset();
    EXPECT_EQ(said(words::stale_cause(cause)),
              "head gasket, left bank, changed from .040 in to nothing on 3 March 2026 by MH");
}

StaleCause set_up_cause(const char* path, const char* now, DependenceReason reason) {
    StaleCause cause;
    cause.record = {RecordKind::set_up, 2};
    cause.field = path;
    cause.before = ".055 in";
    cause.now = now;
    cause.act = 8;
    cause.since = "2026-03-03T12:00:00Z";
    cause.who = "MH";
    cause.reason = reason;
    return cause;
}

TEST(HoldWords, TellWhatWasDoneAlikeAtOnceAndEachReasonOnce) {
    Hold hold{HoldKind::check_stale, "stale/rod_clearance/set_up 2 act 8"};
    hold.subject = "rod_clearance";
    hold.positions = {"1I", "1E", "2I", "2E", "3I", "3E"};
    hold.causes = {
        set_up_cause("banks/left/flange/gasket", ".075 in", DependenceReason::moves_intake),
        set_up_cause("banks/right/flange/gasket", ".075 in", DependenceReason::moves_intake),
        set_up_cause("banks/left/flange/spacer", ".075 in", DependenceReason::moves_intake),
        set_up_cause("banks/right/flange/spacer", ".080 in", DependenceReason::moves_intake),
        set_up_cause("engine/stroke", ".075 in", DependenceReason::moves_piston)};
    EXPECT_EQ(said(words::hold(hold)),
              "Check again: Pushrod clearance, both valves of cylinders 1 to 3. Since it was "
              "checked: intake gasket, left bank and right bank, changed from .055 in to .075 in "
              "on 3 March 2026 by MH; intake spacer, left bank, changed from .055 in to .075 in on "
              "3 March 2026 by MH; intake spacer, right bank, changed from .055 in to .080 in on 3 "
              "March 2026 by MH (it sets where the intake stands between the heads); stroke "
              "changed from .055 in to .075 in on 3 March 2026 by MH (it sets how high the piston "
              "comes)");
    hold.causes.clear();
    for (const char* rod : {"trains/1I/rod/length", "trains/1E/rod/length", "trains/2I/rod/length",
                            "trains/3I/rod/length", "trains/4I/rod/length"}) {
        hold.causes.push_back(set_up_cause(rod, "9 in", DependenceReason::is_the_rod));
    }
    EXPECT_TRUE(words::hold(hold).contains(
        "pushrod's length, both valves of cylinder 1; the intakes of cylinders 2 to 4, changed"))
        << said(words::hold(hold));
}

TEST(HoldWords, NeverTakeWhatIsNotKnownForNothingToWaitFor) {
    CureState state;
    EXPECT_EQ(said(words::cure(state)), "the label's times aren't known");
    state.full_at = "2026-03-03T12:00:00Z";
    EXPECT_TRUE(words::cure(state).startsWith("when it may be handled isn't known"));
    state.stage = CureStage::may_be_handled;
    state.full_at.reset();
    EXPECT_TRUE(words::cure(state).endsWith("isn't known"));
}

// The words of JSON are kept apart from each other, and none is empty.
TEST(HoldWords, EveryKindHasATokenOfItsOwn) {
    std::set<QString> holds;
    for (int kind = 0; kind <= static_cast<int>(HoldKind::needs_not_readable); ++kind) {
        const QString token = words::token(static_cast<HoldKind>(kind));
        EXPECT_TRUE(!token.isEmpty() && holds.insert(token).second) << kind;
    }
    std::set<QString> due;
    for (int kind = 0; kind <= static_cast<int>(DueKind::keep_ended); ++kind) {
        const QString token = words::token(static_cast<DueKind>(kind));
        EXPECT_TRUE(!token.isEmpty() && due.insert(token).second) << kind;
        EXPECT_FALSE(words::due(static_cast<DueKind>(kind)).isEmpty());
    }
    std::set<QString> reasons;
    std::set<QString> sentences;
    for (int reason = 0; reason <= static_cast<int>(DependenceReason::judged_by); ++reason) {
        EXPECT_TRUE(reasons.insert(words::token(static_cast<DependenceReason>(reason))).second);
        EXPECT_TRUE(sentences.insert(words::reason(static_cast<DependenceReason>(reason))).second);
    }
    EXPECT_FALSE(reasons.contains({}));
    EXPECT_FALSE(sentences.contains({}));
}

} // namespace
} // namespace rodway
