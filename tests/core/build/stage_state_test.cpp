#include "core/build/stage_state.h"

#include <gmock/gmock.h>

#include "tests/core/build/work_facts.h"

namespace rodway {
namespace {

SignOff signed_stage(std::int64_t id, std::int64_t stage) {
    SignOff sign_off;
    sign_off.id = id;
    sign_off.stage_id = stage;
    sign_off.signed_at = "2026-03-09T12:00:00Z";
    return sign_off;
}

TEST(StageState, CountsStepsAndHolds) {
    HoldFacts facts = a_build();
    facts.records.steps[0].not_needed = "no";
    add_waiver(facts, 8, "step/12");
    const StageState state = stage_states(facts)[0];
    EXPECT_EQ(state.steps, 2);
    EXPECT_EQ(state.steps_done, 1);
    EXPECT_EQ(state.standing, 0);
    EXPECT_EQ(state.waived, 1);
    EXPECT_FALSE(state.passed); // to waive isn't to do
}

TEST(StageState, WithoutGatesAStageIsPassedWhenItIsDone) {
    HoldFacts facts = a_build();
    EXPECT_EQ(stage_in_hand(facts), 1);
    tick_all(facts, 1);
    EXPECT_EQ(stage_in_hand(facts), 2);
    tick_all(facts, 2);
    tick_all(facts, 3);
    EXPECT_EQ(stage_in_hand(facts), std::nullopt);
    EXPECT_EQ(next_thing(facts).kind, NextKind::nothing);
}

TEST(StageState, WithAGateItMustBeSignedOff) {
    HoldFacts facts = a_build();
    add_gate(facts, 5, 1, "steps");
    tick_all(facts, 1);
    EXPECT_EQ(stage_in_hand(facts), 1);
    EXPECT_EQ(next_thing(facts).kind, NextKind::sign_off);
    facts.records.sign_offs = {signed_stage(9, 1)};
    EXPECT_EQ(stage_in_hand(facts), 2);
    EXPECT_EQ(stage_states(facts)[0].sign_off_id, 9);
    facts.records.sign_offs[0].withdrawn_at = "2026-03-10T00:00:00Z";
    EXPECT_EQ(stage_in_hand(facts), 1);
    EXPECT_EQ(stage_states(facts)[0].sign_off_id, std::nullopt);
}

TEST(StageState, ASignOffThatIsOvertakenRemainsAndTheStageIsOpen) {
    HoldFacts facts = a_build();
    add_gate(facts, 5, 1, "steps");
    tick_all(facts, 1);
    facts.records.sign_offs = {signed_stage(9, 1)};
    facts.overtaken = {9};
    const StageState state = stage_states(facts)[0];
    EXPECT_TRUE(state.overtaken);
    EXPECT_EQ(state.sign_off_id, 9);
    EXPECT_FALSE(state.passed);
    EXPECT_EQ(next_thing(facts).kind, NextKind::sign_off);
    facts.overtaken.clear();
    facts.records.steps[0].ticked_at.reset(); // a tick taken back opens it as well
    EXPECT_TRUE(stage_states(facts)[0].overtaken);
    EXPECT_EQ(next_thing(facts).step_id, 11);
}

TEST(StageState, TheNextThingIsTheFirstOpenStepThatCanBeDone) {
    HoldFacts facts = a_build();
    EXPECT_EQ(next_thing(facts).step_id, 11);
    EXPECT_EQ(next_thing(facts).stage_id, 1);
    PartRecord part;
    part.id = 4;
    part.step_id = 11;
    part.item = "gasket";
    facts.records.parts = {part};
    EXPECT_EQ(next_thing(facts).step_id, 12);
    facts.records.parts.push_back(part);
    facts.records.parts[1].id = 5;
    facts.records.parts[1].step_id = 12;
    const NextThing next = next_thing(facts);
    EXPECT_EQ(next.kind, NextKind::wait);
    EXPECT_EQ(next.step_id, 11);
    EXPECT_EQ(next.hold->key, "part/4/to_come");
    add_waiver(facts, 8, "part/5/to_come"); // go on without it
    EXPECT_EQ(next_thing(facts).step_id, 12);
}

TEST(StageState, AStepWaitsForItsRolesThoughAGateAsksForThemToo) {
    HoldFacts facts = a_build();
    add_gate(facts, 5, 1, "steps; parts head_gasket");
    facts.records.steps[0].part_roles = "head_gasket";
    EXPECT_EQ(next_thing(facts).step_id, 12); // nobody has listed a gasket
    PartRecord gasket;
    gasket.id = 4;
    gasket.role = "head_gasket";
    gasket.item = "gasket";
    gasket.ordered = "2026-03-01";
    facts.records.parts = {gasket};
    EXPECT_EQ(next_thing(facts).step_id, 12);
    facts.records.parts[0].received = facts.records.parts[0].measured = "2026-03-09";
    EXPECT_EQ(next_thing(facts).step_id, 11); // it is there, and the gate waits until it is fitted
}

TEST(StageState, WorkWaitsBehindWhatIsWet) {
    HoldFacts facts = a_build();
    facts.records.steps[0].ticked_at = "2026-03-10T11:55:00Z";
    Cure cure;
    cure.id = 3;
    cure.step_id = 11;
    cure.place = "tubes";
    cure.applied_at = "2026-03-10T11:55:00Z";
    cure.handling_minutes = 10;
    cure.full_minutes = 600;
    facts.records.cures = {cure};
    Cure handled = cure; // comes first among the holds, and is in nobody's way
    handled.id = 2;
    handled.handling_minutes = 0;
    facts.records.cures = {handled, cure};
    EXPECT_EQ(next_thing(facts).kind, NextKind::wait);
    EXPECT_EQ(next_thing(facts).hold->key, "cure/3");
    facts.records.cures = {cure};
    facts.now_utc = "2026-03-10T12:05:00Z"; // may be handled
    EXPECT_EQ(next_thing(facts).kind, NextKind::step);
    EXPECT_EQ(next_thing(facts).step_id, 12);
    tick_all(facts, 1);
    EXPECT_EQ(next_thing(facts).kind, NextKind::hold); // but not yet gone past
    facts.records.cures[0].step_id = 12;
    facts.records.steps[0].ticked_at.reset();
    facts.now_utc = "2026-03-10T12:00:00Z"; // wet, but behind the step that is open
    EXPECT_EQ(next_thing(facts).step_id, 11);
}

} // namespace
} // namespace rodway
