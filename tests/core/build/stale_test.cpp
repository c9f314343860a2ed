#include "core/build/stale.h"

#include <gmock/gmock.h>

#include "tests/core/build/history_maker.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<StaleCheck> stale_now(const HistoryMaker& history) {
    const BuildTimeline timeline(history.changes());
    std::vector<MadeCheck> checks = checks_made(timeline);
    for (MadeCheck& check : clearance_checks_made(timeline)) {
        checks.push_back(std::move(check));
    }
    return stale_checks(checks, timeline);
}

/// "rod_clearance 3I" of each stale check.
std::vector<std::string> names(const HistoryMaker& history) {
    std::vector<std::string> all;
    for (const StaleCheck& stale : stale_now(history)) {
        const MadeCheck& check = stale.check;
        all.push_back(check.kind == clearance_check ? check.kind
                                                    : check.quantity + ' ' + check.position);
    }
    return all;
}

/// "length 1.25 in -> 1.5 in by MH at act 3".
std::string told(const StaleCause& cause) {
    return cause.field + ' ' + cause.before.value_or("-") + " -> " + cause.now.value_or("-") +
           " by " + cause.who + " at act " + std::to_string(cause.act);
}

const std::map<std::string, std::string> bolts{{"item", "manifold bolt"},
                                               {"role", "intake_bolt"},
                                               {"length", "1.25 in"},
                                               {"fitted", "2026-02-27"}};

const std::map<std::string, std::string> two_banks{{"name", "as mocked up"},
                                                   {"cylinders/3/bank", "left"},
                                                   {"cylinders/4/bank", "right"},
                                                   {"banks/left/head/gasket", ".040 in"},
                                                   {"banks/right/head/gasket", ".040 in"},
                                                   {"banks/left/flange/gasket", ".060 in"},
                                                   {"obstacles/bolt/length", "1.25 in"}};

// Question: passed all checks, bent one rod on break-in; the manifold bolts were longer.
TEST(Stale, LongerManifoldBoltsMakeEveryRodClearanceStale) {
    HistoryMaker history;
    history.part(1, bolts);
    history.reading("rod_clearance", "3I", ".014");
    history.reading("rod_clearance", "4E", ".016");
    EXPECT_THAT(names(history), IsEmpty());

    history.begin_act("JW");
    history.set({RecordKind::part, 1}, "length", "1.5 in");
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I", "rod_clearance 4E"));
    const StaleCause cause = stale_now(history).front().causes.front();
    EXPECT_EQ(told(cause), "length 1.25 in -> 1.5 in by JW at act 4");
    EXPECT_EQ(cause.since, history.time_of(4));
    EXPECT_EQ(cause.name, "manifold bolt");
    EXPECT_EQ(cause.role, "intake_bolt");
    EXPECT_EQ(cause.record, (RecordRef{RecordKind::part, 1}));
    EXPECT_EQ(cause.reason, DependenceReason::bolt_end_near_rod);

    history.reading("rod_clearance", "3I", ".013"); // checked again with the bolts in
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 4E"));
    history.set_part(1, "length", "1 1/4\""); // the old ones again, typed another way
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I"));
}

TEST(Stale, AChangeTakenBackLeavesTheCheckGood) {
    HistoryMaker history;
    history.part(1, bolts);
    history.reading("rod_clearance", "3I", ".014");
    history.set_part(1, "length", "1.5 in");
    const std::int64_t act = history.act();
    ASSERT_THAT(names(history), ElementsAre("rod_clearance 3I"));
    ASSERT_TRUE(history.undo(act));
    EXPECT_THAT(names(history), IsEmpty());
    ASSERT_TRUE(history.undo(history.act())); // done again
    EXPECT_THAT(stale_now(history).front().causes,
                ElementsAre(::testing::Truly(
                    [&](const StaleCause& cause) { return cause.act == history.act(); })));
}

TEST(Stale, TellsWhenItLeftWhatItWasNotWhatCameBetween) {
    HistoryMaker history;
    history.part(1, bolts);
    history.reading("rod_clearance", "3I", ".014");
    history.set_part(1, "length", "1.5 in");  // act 3
    history.set_part(1, "length", "1.25 in"); // act 4, back
    history.set_part(1, "length", "1.4 in");  // act 5, away for good
    history.set_part(1, "length", "1.6 in");  // act 6
    EXPECT_EQ(told(stale_now(history).front().causes.front()),
              "length 1.25 in -> 1.6 in by MH at act 5");
}

TEST(Stale, APartThatTakesAnothersPlaceTellsTheSizesOfBoth) {
    HistoryMaker history;
    history.part(1, bolts);
    history.reading("rod_clearance", "3I", ".014");
    history.part(2, {{"item", "longer bolt"},
                     {"role", "intake_bolt"},
                     {"length", "1.5 in"},
                     {"replaces_id", "1"},
                     {"ordered", "2026-03-02"}});
    EXPECT_THAT(names(history), IsEmpty()); // on order: it isn't in the engine
    history.set_part(2, "received", "2026-03-03");
    EXPECT_THAT(names(history), IsEmpty()); // nor in the shop's drawer
    history.set_part(2, "fitted", "2026-03-04");
    ASSERT_THAT(names(history), ElementsAre("rod_clearance 3I"));
    EXPECT_EQ(told(stale_now(history).front().causes.front()),
              "length 1.25 in -> 1.5 in by MH at act 5");
    history.set_part(2, "fitted", std::nullopt);
    EXPECT_THAT(names(history), IsEmpty());
}

TEST(Stale, APartThatWasNeverWrittenDownIsNoChangeWhenItIs) {
    HistoryMaker history;
    history.reading("rod_clearance", "3I", ".014");
    history.part(1, {{"item", "bolt"}, {"role", "intake_bolt"}}); // no days: nobody says when
    EXPECT_THAT(names(history), IsEmpty());
    history.set_part(1, "length", "1.25 in"); // its size for the first time
    EXPECT_THAT(names(history), IsEmpty());
    history.set_part(1, "length", "1.5 in"); // it may well be in the engine
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I"));
}

TEST(Stale, FittingTakingOutAndPuttingBackCountForWhatIsMeasured) {
    HistoryMaker history;
    history.part(1, {{"item", "gasket"}, {"role", "intake_gasket"}, {"ordered", "2026-02-01"}});
    history.reading("rod_clearance", "3I", ".014");
    history.set_part(1, "fitted", "2026-03-03");
    EXPECT_EQ(told(stale_now(history).front().causes.front()),
              "fitted - -> 2026-03-03 by MH at act 3");
    history.reading("rod_clearance", "3I", ".015");
    EXPECT_THAT(names(history), IsEmpty());
    history.set_part(1, "fitted", "2026-03-05"); // apart and together again
    EXPECT_EQ(told(stale_now(history).front().causes.front()),
              "fitted 2026-03-03 -> 2026-03-05 by MH at act 5");
    history.set_part(1, "returned", "2026-03-06");
    EXPECT_EQ(told(stale_now(history).front().causes.front()),
              "returned - -> 2026-03-06 by MH at act 6");
    history.remove({RecordKind::part, 1});
    EXPECT_EQ(stale_now(history).front().causes.front().field, "exists");
}

TEST(Stale, APartAtOneValveConcernsThatValveAlone) {
    HistoryMaker history;
    history.set_up(1, two_banks);
    for (const char* position : {"3I", "3E", "4I"}) {
        history.reading("rod_clearance", position, ".014");
    }
    history.part(
        1,
        {{"item", "pushrod"}, {"role", "pushrod"}, {"position", "3I"}, {"fitted", "2026-03-09"}});
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I"));
    history.part(2, {{"item", "gasket"},
                     {"role", "head_gasket"},
                     {"position", "right"},
                     {"fitted", "2026-03-10"}});
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I", "rod_clearance 4I"));
    history.part(3, {{"item", "pushrods"},
                     {"role", "pushrod"},
                     {"position", "3E, 4I"},
                     {"fitted", "2026-03-11"}});
    EXPECT_EQ(names(history).size(), 3u);
}

TEST(Stale, APartInAPlaceThatNobodyCanReadConcernsAll) {
    HistoryMaker history;
    history.set_up(1, two_banks);
    history.reading("rod_clearance", "3I", ".014");
    history.reading("rod_clearance", "4I", ".014");
    history.part(1, {{"item", "pushrods"},
                     {"role", "pushrod"},
                     {"position", "the new ones"},
                     {"fitted", "2026-03-09"}});
    EXPECT_EQ(names(history).size(), 2u);
}

TEST(Stale, SetUpFieldsMakeStaleWhatTheyPlace) {
    HistoryMaker history;
    history.set_up(1, two_banks);
    history.reading("rod_clearance", "3I", ".014");
    history.reading("rod_clearance", "4I", ".014");
    history.set_path(1, "banks/left/head/gasket", "1.016 mm"); // .040 in, typed another way
    EXPECT_THAT(names(history), IsEmpty());
    history.set_path(1, "banks/left/head/gasket", ".051 in");
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I"));
    EXPECT_EQ(told(stale_now(history).front().causes.front()),
              "banks/left/head/gasket .040 in -> .051 in by MH at act 5");
    history.set_path(1, "banks/left/flange/gasket", ".120 in"); // the intake rests on both
    EXPECT_EQ(names(history).size(), 2u);
    history.set_path(1, "springs/3I/installed_height", "1.8 in");
    EXPECT_EQ(stale_now(history)[1].causes.size(), 1u);
}

TEST(Stale, AnotherSetUpInHandIsAChangeOfWhatDiffers) {
    HistoryMaker history;
    history.reading("rod_clearance", "3I", ".014");
    history.set_up(1, two_banks); // the first says what was so already
    EXPECT_THAT(names(history), IsEmpty());
    history.reading("rod_clearance", "4I", ".014");
    auto other = two_banks;
    other["banks/right/head/gasket"] = ".051 in";
    other.erase("obstacles/bolt/length");
    history.set_up(2, other);
    ASSERT_THAT(names(history), ElementsAre("rod_clearance 3I", "rod_clearance 4I"));
    std::vector<std::string> causes;
    const StaleCheck stale = stale_now(history).back();
    for (const StaleCause& cause : stale.causes) {
        causes.push_back(told(cause));
    }
    EXPECT_THAT(causes, ElementsAre("banks/right/head/gasket .040 in -> .051 in by MH at act 4",
                                    "obstacles/bolt/length 1.25 in -> - by MH at act 4"));
    history.remove({RecordKind::set_up, 2});
    EXPECT_THAT(names(history), IsEmpty());
}

TEST(Stale, AReadingRetakenWithAnotherValueIsAChange) {
    HistoryMaker history;
    history.reading("compression_height", "", "1.500");
    history.reading("deck_clearance", "3 thrust", ".015 down");
    history.reading("compression_height", "", "1.5000"); // the same, read finer
    EXPECT_THAT(names(history), IsEmpty());
    const std::int64_t retake = history.reading("compression_height", "", "1.490");
    ASSERT_THAT(names(history), ElementsAre("deck_clearance 3 thrust"));
    const StaleCause cause = stale_now(history).front().causes.front();
    EXPECT_EQ(told(cause), "compression_height 1.500 in -> 1.490 in by MH at act 4");
    EXPECT_EQ(cause.record, (RecordRef{RecordKind::reading, retake}));
    history.remove({RecordKind::reading, retake});
    EXPECT_THAT(names(history), IsEmpty());
}

TEST(Stale, WhatWasMilledOffIsAChangeAtItsFirstReading) {
    HistoryMaker history;
    history.set_up(1, two_banks);
    history.reading("rod_clearance", "3I", ".014");
    history.reading("rod_clearance", "4I", ".014");
    history.reading("pushrod_length", "3I", "8.1"); // a size for the first time
    EXPECT_THAT(names(history), IsEmpty());
    history.reading("head_removed", "left", ".030");
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I"));
}

TEST(Stale, NothingMeasuredIsNoCheck) {
    HistoryMaker history;
    history.part(1, bolts);
    const std::int64_t id = history.reading("rod_clearance", "3I", "n/m");
    history.begin_act();
    history.set({RecordKind::reading, id}, "status", "not_measured");
    history.set_part(1, "length", "1.5 in");
    EXPECT_THAT(names(history), IsEmpty());
}

TEST(Stale, ASlipPutRightDoesNotMakeACheckNew) {
    HistoryMaker history;
    history.part(1, bolts);
    const std::int64_t id = history.reading("rod_clearance", "3I", ".014");
    history.set_part(1, "length", "1.5 in");
    history.begin_act();
    history.set({RecordKind::reading, id}, "text", ".041");
    EXPECT_THAT(names(history), IsEmpty()); // another number, typed after the change
    history.begin_act();
    history.set({RecordKind::reading, id}, "text", ".014");
    EXPECT_THAT(names(history), ElementsAre("rod_clearance 3I"));
}

TEST(Stale, TheWorkedOutClearanceIsAnsweredByTheFieldsThatSpeakOfThePart) {
    HistoryMaker history;
    history.part(1, bolts);
    history.set_up(1, two_banks);
    EXPECT_THAT(names(history), IsEmpty());
    history.set_part(1, "length", "1.5 in");
    ASSERT_THAT(names(history), ElementsAre("clearance"));
    history.set_path(1, "banks/left/head/gasket", ".041 in"); // speaks of something else
    history.set_path(1, "limits/rod_clearance", ".012 in");
    EXPECT_THAT(names(history), ElementsAre("clearance"));
    history.set_path(1, "obstacles/bolt/length", "1.5 in");
    EXPECT_THAT(names(history), IsEmpty());
    const std::int64_t act = history.act();
    ASSERT_TRUE(history.undo(act)); // the set-up speaks of short bolts again
    EXPECT_THAT(names(history), ElementsAre("clearance"));
}

TEST(Stale, FittingThePartsThatASetUpSpeaksOfIsNoChangeOfTheWorkedOutClearance) {
    HistoryMaker history;
    history.part(1, {{"item", "gasket"},
                     {"role", "intake_gasket"},
                     {"size", ".060"},
                     {"ordered", "2026-02-01"}});
    history.set_up(1, two_banks);
    history.set_part(1, "fitted", "2026-03-03");
    EXPECT_THAT(names(history), IsEmpty());
    history.part(2, {{"item", "thick gasket"},
                     {"role", "intake_gasket"},
                     {"size", ".120"},
                     {"replaces_id", "1"},
                     {"fitted", "2026-03-04"}});
    EXPECT_THAT(names(history), ElementsAre("clearance"));
}

TEST(Stale, BoltsOfOneJointAreNotConcernedByAnother) {
    HistoryMaker history;
    history.reading("fastener_torque", "head left bolt 7 pass 2", "65", "lb-ft");
    history.reading("fastener_torque", "main 2 bolt 1 pass 2", "80", "lb-ft");
    history.part(1, {{"item", "gasket"}, {"role", "head_gasket"}, {"fitted", "2026-03-03"}});
    EXPECT_THAT(names(history), ElementsAre("fastener_torque head left bolt 7 pass 2"));
}

TEST(Stale, ActsCountNotTheirClocks) {
    HistoryMaker history;
    history.part(1, bolts);
    history.reading("rod_clearance", "3I", ".014");
    history.set_part(1, "length", "1.5 in");
    std::vector<BuildChange> changes = history.changes();
    changes.back().when_utc = "2020-01-01T00:00:00Z"; // the computer's clock was set back
    const BuildTimeline timeline(changes);
    EXPECT_EQ(stale_checks(checks_made(timeline), timeline).size(), 1u);
}

} // namespace
} // namespace rodway
