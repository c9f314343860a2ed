#include "core/build/hold.h"

#include <gmock/gmock.h>

#include "tests/core/build/work_facts.h"

namespace rodway {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;

CheckedBox box(const std::string& quantity, const std::string& position, SheetVerdict verdict,
               std::int64_t reading) {
    CheckedBox checked{quantity, position};
    checked.reading_id = reading;
    checked.value = ".008 in";
    checked.limit = ">= 0.254 mm";
    checked.verdict = verdict;
    return checked;
}

SheetStanding complete(const std::string& kind, std::vector<CheckedBox> boxes = {}) {
    return {kind, 16, 16, std::move(boxes), {}};
}

ClearanceStanding valve(const std::string& position, std::optional<Verdict> verdict,
                        std::optional<double> mm = 0.3) {
    return {position, verdict, mm, 0.05, 0.254};
}

const Hold& only(const Holds& holds) {
    EXPECT_EQ(holds.holds.size(), 1u);
    return holds.holds.front();
}

TEST(Hold, AnOpenStepHoldsItsStage) {
    HoldFacts facts = a_build();
    EXPECT_THAT(keys(holds_of_stage(facts, 1)), ElementsAre("step/11", "step/12"));
    facts.records.steps[0].ticked_by = "MH";
    facts.records.steps[0].ticked_at = "2026-03-09T12:00:00Z";
    const Hold hold = only(holds_of_stage(facts, 1));
    EXPECT_EQ(hold.kind, HoldKind::step_open);
    EXPECT_EQ(hold.step_id, 12);
    EXPECT_EQ(hold.record, (RecordRef{RecordKind::step, 12}));
    EXPECT_EQ(hold.subject, "Step 12");
    facts.records.steps[1].not_needed = "no heads on this one";
    EXPECT_THAT(holds_of_stage(facts, 1).holds, IsEmpty());
}

TEST(Hold, AStageThatIsNotThereHoldsNothing) {
    EXPECT_THAT(holds_of_stage(a_build(), 99).holds, IsEmpty());
}

TEST(Hold, AGateWaitsForItsSheet) {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "sheet rod_clearance");
    EXPECT_EQ(only(holds_of_stage(facts, 2)).kind, HoldKind::sheet_missing);
    facts.sheets = {{"rod_clearance", 16, 0, {}, {"3I"}}};
    EXPECT_EQ(only(holds_of_stage(facts, 2)).kind, HoldKind::sheet_missing);
    facts.sheets = {{"rod_clearance", 16, 15, {}, {"3I"}}};
    const Hold incomplete = only(holds_of_stage(facts, 2));
    EXPECT_EQ(incomplete.kind, HoldKind::sheet_incomplete);
    EXPECT_EQ(incomplete.gate_id, 5);
    EXPECT_THAT(incomplete.positions, ElementsAre("3I"));
    EXPECT_EQ(incomplete.key, "sheet/rod_clearance/incomplete");
    facts.sheets = {complete("rod_clearance")};
    EXPECT_THAT(holds_of_stage(facts, 2).holds, IsEmpty());
}

TEST(Hold, ChecksFailOrAreTooClose) {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "sheet rod_clearance");
    facts.sheets = {
        complete("rod_clearance", {box("rod_clearance", "1I", SheetVerdict::passed, 1),
                                   box("rod_clearance", "2I", SheetVerdict::too_close, 2),
                                   box("rod_clearance", "3I", SheetVerdict::failed, 3),
                                   box("rod_clearance", "4I", SheetVerdict::serviceable, 4)})};
    const Holds holds = holds_of_stage(facts, 2);
    EXPECT_THAT(keys(holds), ElementsAre("failed/rod_clearance/3I/reading 3",
                                         "too_close/rod_clearance/2I/reading 2"));
    EXPECT_EQ(holds.holds[0].kind, HoldKind::check_failed);
    EXPECT_EQ(holds.holds[0].record, (RecordRef{RecordKind::reading, 3}));
    EXPECT_EQ(holds.holds[0].value, ".008 in");
    EXPECT_EQ(holds.holds[1].kind, HoldKind::check_too_close);
}

TEST(Hold, AWaivedFailureIsAnotherHoldWhenItIsMeasuredAgain) {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "sheet rod_clearance");
    facts.sheets = {
        complete("rod_clearance", {box("rod_clearance", "3I", SheetVerdict::failed, 3)})};
    add_waiver(facts, 8, "failed/rod_clearance/3I/reading 3");
    const Holds holds = holds_of_stage(facts, 2);
    ASSERT_TRUE(only(holds).waived.has_value());
    EXPECT_EQ(only(holds).waived->by, "JW");
    EXPECT_EQ(only(holds).waived->reason, "the customer knows");
    EXPECT_FALSE(only(holds).stands());
    EXPECT_THAT(holds.neglected, IsEmpty());
    facts.sheets = {
        complete("rod_clearance", {box("rod_clearance", "3I", SheetVerdict::failed, 9)})};
    const Holds again = holds_of_stage(facts, 2);
    EXPECT_TRUE(only(again).stands());
    ASSERT_EQ(again.neglected.size(), 1u);
    EXPECT_EQ(again.neglected[0].why, WaiverNeglect::holds_nothing);
}

TEST(Hold, AWaiverEndsAfterItsLastDay) {
    HoldFacts facts = a_build();
    add_waiver(facts, 8, "step/11", "2026-03-10");
    EXPECT_THAT(keys(holds_of_stage(facts, 1)), ElementsAre("step/11 (waived)", "step/12"));
    facts.today = "2026-03-11";
    const Holds holds = holds_of_stage(facts, 1);
    EXPECT_THAT(keys(holds), ElementsAre("step/11", "step/12"));
    ASSERT_EQ(holds.neglected.size(), 1u);
    EXPECT_EQ(holds.neglected[0].waiver_id, 8);
    EXPECT_EQ(holds.neglected[0].why, WaiverNeglect::expired);
}

TEST(Hold, ContactIsNeverWaivedWhateverAWaiverSays) {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "clearance; sheet piston_to_valve");
    facts.clearances = {{valve("3I", Verdict::contact, -0.1), valve("3E", Verdict::passed)}};
    CheckedBox touching = box("piston_to_valve_clearance", "4E", SheetVerdict::failed, 7);
    touching.contact = true;
    facts.sheets = {complete("piston_to_valve", {touching}), complete("rod_clearance")};
    for (const Hold& hold : holds_of_stage(facts, 2).holds) {
        EXPECT_EQ(hold.kind, HoldKind::contact);
        EXPECT_FALSE(hold.may_be_waived());
        add_waiver(facts, 20 + static_cast<std::int64_t>(facts.records.waivers.size()), hold.key);
    }
    ASSERT_EQ(facts.records.waivers.size(), 2u);
    for (const Holds& holds : {holds_of_stage(facts, 2), holds_of_build(facts)}) {
        EXPECT_THAT(keys(holds), Contains("contact/clearance/3I"));
        EXPECT_THAT(keys(holds), Contains("contact/piston_to_valve_clearance/4E"));
        ASSERT_EQ(holds.neglected.size(), 2u);
        EXPECT_EQ(holds.neglected[0].why, WaiverNeglect::of_contact);
    }
    EXPECT_FALSE(may_sign_off(facts, 2).may);
    // Nor does one that was written before anything touched wait for its day.
    facts.clearances = {{valve("3I", Verdict::passed)}};
    EXPECT_EQ(holds_of_build(facts).neglected[0].why, WaiverNeglect::of_contact);
}

TEST(Hold, TheClearanceMustBeWorkedOutAndPass) {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "clearance");
    EXPECT_EQ(only(holds_of_stage(facts, 2)).kind, HoldKind::clearance_not_known);
    facts.clearances.emplace();
    EXPECT_EQ(only(holds_of_stage(facts, 2)).kind, HoldKind::clearance_not_known);
    facts.clearances = {{valve("1I", Verdict::passed), valve("1E", Verdict::passed_little_room),
                         valve("2I", Verdict::passed_for_now), valve("2E", Verdict::failed, 0.2081),
                         valve("3I", Verdict::too_close_to_call), valve("3E", std::nullopt, {}),
                         valve("4I", Verdict::no_doubt_given)}};
    const Holds holds = holds_of_stage(facts, 2);
    EXPECT_THAT(keys(holds),
                ElementsAre("failed/clearance/2E/208um", "too_close/clearance/3I/300um",
                            "no_answer/clearance/3E", "clearance/no_doubt"));
    EXPECT_THAT(holds.holds[3].positions, ElementsAre("4I"));
    EXPECT_EQ(holds.holds[0].value, "0.2081 mm");
    EXPECT_EQ(holds.holds[0].limit, ">= 0.254 mm");
}

TEST(Hold, TheClearanceNeedLooksAtReadingsToo) {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "clearance");
    facts.clearances = {{valve("1I", Verdict::passed)}};
    facts.sheets = {
        complete("rod_clearance", {box("rod_clearance", "3I", SheetVerdict::failed, 3)})};
    EXPECT_EQ(only(holds_of_stage(facts, 2)).kind, HoldKind::check_failed);
}

StaleCheck stale(const std::string& position, std::int64_t act) {
    StaleCause cause;
    cause.record = {RecordKind::part, 12};
    cause.field = "length";
    cause.act = act;
    return {{"rod_clearance", "rod_clearance", position, 3, "2026-03-01T12:00:00Z"}, {cause}};
}

TEST(Hold, StaleChecksOfOneCauseAreOneHold) {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "sheet rod_clearance");
    facts.sheets = {complete("rod_clearance")};
    facts.stale = {stale("3I", 57), stale("4E", 57), stale("5E", 58)};
    const Holds holds = holds_of_stage(facts, 2);
    EXPECT_THAT(keys(holds), ElementsAre("stale/rod_clearance/part 12 length act 57",
                                         "stale/rod_clearance/part 12 length act 58"));
    EXPECT_THAT(holds.holds[0].positions, ElementsAre("3I", "4E"));
    EXPECT_EQ(holds.holds[0].causes.size(), 1u);
    // A waiver is of that change: the next one holds again.
    add_waiver(facts, 8, "stale/rod_clearance/part 12 length act 57");
    EXPECT_THAT(keys(holds_of_stage(facts, 2)),
                ElementsAre("stale/rod_clearance/part 12 length act 57 (waived)",
                            "stale/rod_clearance/part 12 length act 58"));
}

PartRecord part(std::int64_t id, const std::string& role) {
    PartRecord record;
    record.id = id;
    record.build_id = 1;
    record.item = "a " + role;
    record.role = role;
    return record;
}

TEST(Hold, AGateWaitsUntilItsPartsAreFitted) {
    HoldFacts facts = a_build();
    tick_all(facts, 1);
    add_gate(facts, 5, 1, "parts head_gasket, head_bolt");
    EXPECT_THAT(keys(holds_of_stage(facts, 1)),
                ElementsAre("role/head_gasket/not_listed", "role/head_bolt/not_listed"));
    facts.records.parts = {part(1, "head_gasket"), part(2, "head_bolt")};
    PartRecord& gasket = facts.records.parts[0];
    facts.records.parts[1].fitted = "2026-03-01";
    EXPECT_EQ(only(holds_of_stage(facts, 1)).wait, PartWait::needed); // no days at all
    gasket.ordered = "2026-03-01";
    EXPECT_EQ(only(holds_of_stage(facts, 1)).wait, PartWait::ordered);
    gasket.promised = "2026-03-12";
    EXPECT_EQ(only(holds_of_stage(facts, 1)).wait, PartWait::promised);
    EXPECT_EQ(only(holds_of_stage(facts, 1)).until, "2026-03-12");
    gasket.promised = "2026-03-09";
    EXPECT_EQ(only(holds_of_stage(facts, 1)).wait, PartWait::overdue);
    EXPECT_EQ(only(holds_of_stage(facts, 1)).key, "part/1/to_come");
    gasket.received = "2026-03-10";
    EXPECT_EQ(only(holds_of_stage(facts, 1)).key, "part/1/not_measured");
    gasket.measured = "2026-03-10";
    EXPECT_EQ(only(holds_of_stage(facts, 1)).key, "part/1/not_fitted");
    gasket.fitted = "2026-03-10";
    EXPECT_THAT(holds_of_stage(facts, 1).holds, IsEmpty());
    gasket.failed = "leaks";
    EXPECT_EQ(only(holds_of_stage(facts, 1)).key, "part/1/failed");
    facts.records.parts.push_back(part(3, "head_gasket"));
    facts.records.parts.back().replaces_id = 1;
    EXPECT_EQ(only(holds_of_stage(facts, 1)).key, "part/3/to_come");
}

TEST(Hold, AnOpenStepWaitsForItsPartsToCome) {
    HoldFacts facts = a_build();
    facts.records.parts = {part(1, "pushrod"), part(2, "rocker")};
    facts.records.parts[0].step_id = 22;
    facts.records.steps[3].part_roles = "rocker, adjuster";
    EXPECT_THAT(keys(holds_of_stage(facts, 2)),
                ElementsAre("part/1/to_come", "part/2/to_come", "role/adjuster/not_listed",
                            "step/21", "step/22"));
    EXPECT_EQ(holds_of_stage(facts, 2).holds[0].step_id, 22);
    for (PartRecord& one : facts.records.parts) {
        one.received = "2026-03-01";
        one.measured = "2026-03-02"; // to fit it is the step itself
    }
    EXPECT_THAT(keys(holds_of_stage(facts, 2)),
                ElementsAre("role/adjuster/not_listed", "step/21", "step/22"));
    tick_all(facts, 2);
    EXPECT_THAT(holds_of_stage(facts, 2).holds, IsEmpty());
}

Cure cure_at(std::int64_t id, std::optional<std::int64_t> step, std::optional<int> full) {
    Cure cure;
    cure.id = id;
    cure.step_id = step;
    cure.place = "tubes, left";
    cure.applied_at = "2026-03-10T11:00:00Z";
    cure.handling_minutes = 10;
    cure.full_minutes = full;
    return cure;
}

TEST(Hold, WhatDriesHoldsItsStageUntilItHasCured) {
    HoldFacts facts = a_build();
    tick_all(facts, 1);
    facts.records.cures = {cure_at(1, 11, 120), cure_at(2, 11, {}), cure_at(3, 21, 120),
                           cure_at(4, {}, 120)};
    const Holds holds = holds_of_stage(facts, 1);
    EXPECT_THAT(keys(holds), ElementsAre("cure/1", "cure/2"));
    EXPECT_EQ(holds.holds[0].until, "2026-03-10T13:00:00Z");
    EXPECT_EQ(holds.holds[1].until, std::nullopt);
    facts.now_utc = "2026-03-10T13:00:00Z";
    EXPECT_THAT(keys(holds_of_stage(facts, 1)), ElementsAre("cure/2"));
    facts.records.cures[1].ended = "2026-03-10T13:00:00Z";
    EXPECT_THAT(holds_of_stage(facts, 1).holds, IsEmpty());
}

TEST(Hold, OpenItemsHoldTheGateThatWaitsForThem) {
    HoldFacts facts = a_build();
    tick_all(facts, 3);
    add_gate(facts, 5, 3, std::nullopt);
    add_gate(facts, 6, 3, "closed temporary_part, risk");
    OpenItem item;
    item.id = 1;
    item.title = "temporary studs";
    item.kind = OpenItemKind::watch;
    item.gate_id = 5;
    item.due = "2026-03-20";
    facts.records.open_items = {item, item, item};
    facts.records.open_items[1].id = 2;
    facts.records.open_items[1].gate_id.reset();
    facts.records.open_items[1].kind = OpenItemKind::risk;
    facts.records.open_items[2].id = 3;
    facts.records.open_items[2].gate_id.reset(); // watched, and nothing waits for it
    const Holds holds = holds_of_stage(facts, 3);
    EXPECT_THAT(keys(holds), ElementsAre("open_item/1", "open_item/2"));
    EXPECT_EQ(holds.holds[0].gate_id, 5);
    EXPECT_EQ(holds.holds[0].until, "2026-03-20");
    EXPECT_EQ(holds.holds[1].gate_id, 6);
    facts.records.open_items[0].closed_at = "2026-03-10T00:00:00Z";
    EXPECT_THAT(keys(holds_of_stage(facts, 3)), ElementsAre("open_item/2"));
    facts.records.parts = {part(4, "intake_bolt")};
    facts.records.parts[0].temporary = true;
    facts.records.parts[0].fitted = "2026-03-01";
    EXPECT_THAT(keys(holds_of_stage(facts, 3)), ElementsAre("part/4/temporary", "open_item/2"));
}

TEST(Hold, AQuestionToTheCustomerHoldsUntilHeAnswers) {
    HoldFacts facts = a_build();
    tick_all(facts, 3);
    Approval approval;
    approval.id = 4;
    approval.subject = "larger valves";
    facts.records.approvals = {approval};
    EXPECT_THAT(holds_of_stage(facts, 3).holds, IsEmpty()); // no gate waits for it
    EXPECT_THAT(keys(holds_of_build(facts)), Contains("approval/4"));
    add_gate(facts, 6, 3, "approvals");
    EXPECT_EQ(only(holds_of_stage(facts, 3)).kind, HoldKind::decision_pending);
    facts.records.approvals[0].answer = ApprovalAnswer::declined;
    EXPECT_THAT(holds_of_stage(facts, 3).holds, IsEmpty());
}

TEST(Hold, NeedsThatNobodyCanReadHoldUntilTheyAreWaived) {
    HoldFacts facts = a_build();
    tick_all(facts, 3);
    add_gate(facts, 6, 3, "steps; weather fine");
    const Hold hold = only(holds_of_stage(facts, 3));
    EXPECT_EQ(hold.kind, HoldKind::needs_not_readable);
    EXPECT_EQ(hold.subject, "steps; weather fine");
    add_waiver(facts, 8, hold.key);
    EXPECT_TRUE(may_sign_off(facts, 3).may);
    facts.records.gates[0].needs = "steps; weather better";
    EXPECT_FALSE(may_sign_off(facts, 3).may);
}

TEST(Hold, EachThingStandsOnceUnderTheFirstGateThatWaitsForIt) {
    HoldFacts facts = a_build();
    add_gate(facts, 5, 1, "steps; parts head_gasket");
    add_gate(facts, 6, 1, "steps; parts head_gasket");
    facts.records.steps[0].part_roles = "head_gasket";
    const Holds holds = holds_of_stage(facts, 1);
    EXPECT_THAT(keys(holds), ElementsAre("role/head_gasket/not_listed", "step/11", "step/12"));
    for (const Hold& hold : holds.holds) {
        EXPECT_EQ(hold.gate_id, 5);
    }
}

TEST(Hold, OfLaterStagesABuildShowsWhatIsInTheWayNotWhatHasNotBegun) {
    HoldFacts facts = a_build();
    add_gate(facts, 5, 2, "sheet rod_clearance; clearance; parts pushrod; cures");
    facts.sheets = {
        {"rod_clearance", 16, 3, {box("rod_clearance", "3I", SheetVerdict::failed, 3)}, {"4I"}}};
    facts.records.parts = {part(7, "pushrod"), part(8, "oil_filter")};
    facts.records.cures = {cure_at(1, 21, 120), cure_at(2, {}, 120)};
    EXPECT_THAT(keys(holds_of_build(facts)),
                ElementsAre("step/11", "step/12", "failed/rod_clearance/3I/reading 3",
                            "part/7/to_come", "cure/1", "part/8/to_come", "cure/2"));
    tick_all(facts, 1); // without gates it is passed when it is done
    EXPECT_THAT(keys(holds_of_build(facts)), Contains("sheet/rod_clearance/incomplete"));
    EXPECT_THAT(keys(holds_of_build(facts)), Not(Contains("step/31")));
}

TEST(Hold, ChecksThatStandBadlyShowThoughNoStageAsksForThem) {
    HoldFacts facts = a_build();
    facts.records.stages.clear();
    facts.records.steps.clear();
    facts.stale = {stale("3I", 57)};
    facts.clearances = {{valve("5E", Verdict::contact, -0.1)}};
    facts.clearances->push_back(valve("4I", Verdict::no_doubt_given));
    EXPECT_THAT(keys(holds_of_build(facts)),
                ElementsAre("contact/clearance/5E")); // the sheet isn't among those loaded
    facts.sheets = {complete("rod_clearance")};
    EXPECT_THAT(keys(holds_of_build(facts)),
                ElementsAre("contact/clearance/5E", "stale/rod_clearance/part 12 length act 57"));
}

} // namespace
} // namespace rodway
