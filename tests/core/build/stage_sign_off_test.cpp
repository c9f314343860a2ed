#include "core/build/stage_sign_off.h"

#include <gmock/gmock.h>

#include "tests/core/build/history_maker.h"
#include "tests/core/build/work_facts.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const Signature by_mh{"MH", "2026-03-10T12:00:00Z", "1.4"};

HoldFacts ready() {
    HoldFacts facts = a_build();
    tick_all(facts, 2);
    add_gate(facts, 5, 2, "steps; sheet rod_clearance; clearance");
    add_gate(facts, 6, 2, "approvals");
    CheckedBox box{"rod_clearance", "3I"};
    box.reading_id = 7;
    box.value = ".012 in";
    box.limit = ">= 0.254 mm";
    box.limit_source = "common_practice";
    box.verdict = SheetVerdict::passed;
    CheckedBox gap{"rod_gap_least", "3I"};
    gap.value = "0.3 mm";
    gap.verdict = SheetVerdict::no_limit;
    facts.sheets = {{"rod_clearance", 1, 1, {box, gap}, {}}};
    facts.clearances = {{{"3I", Verdict::passed, 0.31246, 0.05, 0.254}}};
    return facts;
}

TEST(StageSignOff, FreezesValueLimitSourceVerdictAndProgram) {
    const HoldFacts facts = ready();
    const auto kept = sign_offs_to_keep(facts, 2, by_mh);
    ASSERT_TRUE(kept.ok());
    ASSERT_EQ(kept->size(), 3u);
    const SignOff& gate = (*kept)[0];
    EXPECT_EQ(gate.gate_id, 5);
    EXPECT_EQ(gate.stage_id, std::nullopt);
    EXPECT_EQ(gate.subject, "Gate 5");
    EXPECT_EQ(gate.value,
              "rod_clearance 3I: .012 in, passed\nrod_gap_least 3I: 0.3 mm, no_limit\n"
              "clearance 3I: 0.3125 mm +/- 0.05 mm, passed\n"
              "rod_clearance 3I: .012 in, passed\nrod_gap_least 3I: 0.3 mm, no_limit");
    EXPECT_EQ(gate.limit_text, ">= 0.254 mm\n-\n>= 0.254 mm\n>= 0.254 mm\n-");
    EXPECT_EQ(gate.limit_source, "common_practice\n-\n-\ncommon_practice\n-");
    EXPECT_EQ(gate.verdict, "passed");
    EXPECT_EQ(gate.program_version, "1.4");
    EXPECT_EQ(gate.signed_by, "MH");
    EXPECT_EQ(gate.signed_at, "2026-03-10T12:00:00Z");
    EXPECT_EQ((*kept)[1].gate_id, 6);
    EXPECT_EQ((*kept)[1].value, std::nullopt); // it waits for no check
    const SignOff& whole = (*kept)[2];
    EXPECT_EQ(whole.stage_id, 2);
    EXPECT_EQ(whole.gate_id, std::nullopt);
    EXPECT_EQ(whole.subject, "Pushrod clearance");
    EXPECT_EQ(whole.build_id, 1);
}

TEST(StageSignOff, IsRefusedWhileSomethingHoldsTheStage) {
    HoldFacts facts = ready();
    facts.records.steps[2].ticked_at.reset();
    const auto refused = sign_offs_to_keep(facts, 2, by_mh);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::not_of_this_kind);
    EXPECT_EQ(refused.error().expected, "held_up");
    EXPECT_EQ(refused.error().value, "step/21");
    EXPECT_FALSE(may_sign_off(facts, 2).may);
    EXPECT_EQ(sign_offs_to_keep(facts, 77, by_mh).error().code, ErrorCode::no_such_record);
}

TEST(StageSignOff, AnExceptionThatWasTakenOnIsNamed) {
    HoldFacts facts = ready();
    facts.records.steps[2].ticked_at.reset();
    add_waiver(facts, 8, "step/21");
    Signature signature = by_mh;
    signature.note = "as agreed";
    const auto kept = sign_offs_to_keep(facts, 2, signature);
    ASSERT_TRUE(kept.ok());
    EXPECT_EQ((*kept)[0].verdict, "waived");
    EXPECT_EQ((*kept)[0].note, "as agreed\nstep/21");
    EXPECT_EQ((*kept)[1].verdict, "passed"); // the other gate has no exception
    EXPECT_EQ((*kept)[2].verdict, "waived");
}

TEST(StageSignOff, TheNewestOfAStageWithItsGates) {
    BuildFacts records = ready().records;
    const auto add = [&](std::int64_t id, std::optional<std::int64_t> gate,
                         std::optional<std::int64_t> stage, const std::string& at) {
        SignOff one;
        one.id = id;
        one.gate_id = gate;
        one.stage_id = stage;
        one.signed_at = at;
        records.sign_offs.push_back(one);
    };
    add(1, 5, {}, "2026-03-01T12:00:00Z");
    add(2, {}, 2, "2026-03-01T12:00:00Z");
    add(3, 5, {}, "2026-03-02T12:00:00Z");
    add(4, {}, 2, "2026-03-02T12:00:00Z");
    add(5, {}, 1, "2026-03-02T12:00:00Z");
    const auto ids = [&] {
        std::vector<std::int64_t> all;
        for (const SignOff& one : sign_offs_of_stage(records, 2)) {
            all.push_back(one.id);
        }
        return all;
    };
    EXPECT_THAT(ids(), ElementsAre(3, 4));
    records.sign_offs[2].withdrawn_at = records.sign_offs[3].withdrawn_at = "2026-03-03T12:00:00Z";
    EXPECT_THAT(ids(), ElementsAre(1, 2));
    EXPECT_THAT(sign_offs_of_stage(records, 3), IsEmpty());
}

TEST(StageSignOff, AWaiverNamesTheHoldAndNeedsAReason) {
    HoldFacts facts = ready();
    facts.records.steps[2].ticked_at.reset();
    const Holds holds = holds_of_stage(facts, 2);
    const auto waiver = waiver_of(holds, "step/21", "  it can wait ");
    ASSERT_TRUE(waiver.ok());
    EXPECT_EQ(waiver->hold, "step/21");
    EXPECT_EQ(waiver->reason, "it can wait");
    EXPECT_EQ(waiver->gate_id, 5);
    EXPECT_EQ(waiver->subject, "Step 21");
    EXPECT_EQ(waiver_of(holds, "step/21", "  ").error().code, ErrorCode::empty_text);
    EXPECT_EQ(waiver_of(holds, "step/22", "no").error().code, ErrorCode::no_such_record);
    facts.clearances = {{{"3I", Verdict::contact, -0.1, 0.05, 0.254}}};
    const auto refused = waiver_of(holds_of_stage(facts, 2), "contact/clearance/3I", "no matter");
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::not_of_this_kind);
    EXPECT_EQ(refused.error().expected, "contact");
}

/// A sign-off of gate 5 and stage 2 in one act, as the history has it.
void sign(HistoryMaker& history, BuildFacts& records, std::int64_t first_id) {
    history.begin_act();
    for (std::int64_t id : {first_id, first_id + 1}) {
        history.set({RecordKind::sign_off, id}, "exists", "1");
        SignOff one;
        one.id = id;
        one.signed_at = history.time_of(history.act());
        (id == first_id ? one.gate_id : one.stage_id) = id == first_id ? 5 : 2;
        records.sign_offs.push_back(one);
    }
}

std::vector<std::int64_t> overtaken(const HistoryMaker& history, BuildFacts& records) {
    records.changes = history.changes();
    const BuildTimeline timeline(records.changes);
    return overtaken_sign_offs(records, timeline);
}

TEST(StageSignOff, IsOvertakenByAChangeEvenIfTheCheckWasMadeAgain) {
    BuildFacts records = ready().records;
    HistoryMaker history;
    history.part(1, {{"item", "bolt"},
                     {"role", "intake_bolt"},
                     {"length", "1.25 in"},
                     {"fitted", "2026-02-01"}});
    history.reading("rod_clearance", "3I", ".012");
    sign(history, records, 10);
    EXPECT_THAT(overtaken(history, records), IsEmpty());
    history.set_part(1, "length", "1.5 in");
    const std::int64_t change = history.act();
    EXPECT_THAT(overtaken(history, records), ElementsAre(10, 11));
    history.reading("rod_clearance", "3I", ".011");
    EXPECT_THAT(overtaken(history, records), ElementsAre(10, 11));
    sign(history, records, 12);
    EXPECT_THAT(overtaken(history, records), ElementsAre(10, 11)); // the new ones stand
    ASSERT_TRUE(history.undo(change));
    EXPECT_THAT(overtaken(history, records), ElementsAre(12, 13)); // signed with the long bolts in
    records.sign_offs[2].withdrawn_at = "2026-03-20T00:00:00Z";
    EXPECT_THAT(overtaken(history, records), IsEmpty());
}

TEST(StageSignOff, IsNotOvertakenByWhatItsGatesDoNotWaitFor) {
    BuildFacts records = ready().records;
    records.gates[0].needs = "steps; sheet lash";
    HistoryMaker history;
    sign(history, records, 10);
    history.part(1, {{"item", "bolt"}, {"role", "intake_bolt"}, {"fitted", "2026-02-01"}});
    EXPECT_THAT(overtaken(history, records), IsEmpty());
    history.part(2, {{"item", "rods"}, {"role", "pushrod"}, {"fitted", "2026-02-01"}});
    EXPECT_THAT(overtaken(history, records), ElementsAre(10, 11));
}

} // namespace
} // namespace rodway
