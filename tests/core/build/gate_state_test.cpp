#include "core/build/gate_state.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/build/build_facts.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// A stage with one step and two gates, both of which wait for the lash sheet.
class GateStates : public ::testing::Test {
  protected:
    void SetUp() override {
        records_.stages = {{1, 7, 0, "Valvetrain", std::nullopt}, {2, 7, 1, "Oil", std::nullopt}};
        Step step;
        step.id = 11;
        step.stage_id = 1;
        step.title = "Lash set";
        records_.steps = {step};
        records_.gates = {{21, 1, 0, "Set", "steps; sheet lash", std::nullopt},
                          {22, 1, 1, "Agreed", "sheet lash; closed watch", std::nullopt},
                          {23, 2, 0, "Odd", "moonlight", std::nullopt}};
    }
    StageGates gates(std::int64_t stage = 1) const {
        return stage_gates(
            hold_facts(records_, {}, std::nullopt, "2026-11-30T10:00:00Z", "2026-11-30"), stage);
    }
    static std::vector<std::string> keys(const std::vector<Hold>& holds) {
        std::vector<std::string> all;
        for (const Hold& hold : holds) {
            all.push_back(hold.key);
        }
        return all;
    }
    OpenItem item(OpenItemKind kind, std::optional<std::int64_t> gate = {}) const {
        OpenItem open;
        open.id = 31;
        open.build_id = 7;
        open.kind = kind;
        open.gate_id = gate;
        open.title = "Thread of bolt 7";
        return open;
    }

    BuildFacts records_;
};

TEST_F(GateStates, WhatTwoGatesWaitForStandsUnderBoth) {
    const StageGates found = gates();
    ASSERT_EQ(found.gates.size(), 2U);
    const auto& first = *found.gates[0].needs;
    const auto& second = *found.gates[1].needs;
    ASSERT_EQ(first.size(), 2U);
    ASSERT_EQ(second.size(), 2U);
    EXPECT_THAT(keys(first[0].holds), ElementsAre("step/11"));
    EXPECT_THAT(keys(first[1].holds), ElementsAre("sheet/lash/missing"));
    EXPECT_THAT(keys(second[0].holds), ElementsAre("sheet/lash/missing"));
    EXPECT_THAT(second[1].holds, IsEmpty());
    EXPECT_TRUE(second[1].met());
    EXPECT_FALSE(found.gates[1].met());
    EXPECT_THAT(found.others, IsEmpty());
}

TEST_F(GateStates, AWaiverCountsUnderEachOfThem) {
    Waiver waiver;
    waiver.id = 41;
    waiver.build_id = 7;
    waiver.hold = "sheet/lash/missing";
    waiver.reason = "Set hot, after the first start";
    records_.waivers = {waiver};
    const StageGates found = gates();
    EXPECT_TRUE((*found.gates[0].needs)[1].met());
    EXPECT_EQ((*found.gates[0].needs)[1].holds.size(), 1U);
    EXPECT_FALSE(found.gates[0].met()); // its step is still open
    EXPECT_TRUE(found.gates[1].met());
}

TEST_F(GateStates, AnItemStandsAtTheGateThatNamesItOrAtTheNeedOfItsKind) {
    records_.open_items = {item(OpenItemKind::watch)};
    EXPECT_THAT(keys((*gates().gates[1].needs)[1].holds), ElementsAre("open_item/31"));
    EXPECT_THAT(gates().gates[1].others, IsEmpty());

    records_.open_items = {item(OpenItemKind::risk, 21)};
    EXPECT_TRUE((*gates().gates[1].needs)[1].met());
    EXPECT_THAT(keys(gates().gates[0].others), ElementsAre("open_item/31"));
    records_.steps[0].ticked_at = "2026-11-29T10:00:00Z";
    EXPECT_FALSE(gates().gates[0].met());

    // Named at one gate and of the kind that another waits for: under the need, not at the gate.
    records_.open_items = {item(OpenItemKind::watch, 21)};
    EXPECT_THAT(keys((*gates().gates[1].needs)[1].holds), ElementsAre("open_item/31"));
}

TEST_F(GateStates, WhatHoldsTheStageAtNoGateIsLeftOver) {
    Cure cure;
    cure.id = 51;
    cure.build_id = 7;
    cure.step_id = 11;
    cure.place = "rail";
    cure.full_minutes = 600;
    cure.applied_at = "2026-11-30T09:00:00Z";
    records_.cures = {cure};
    EXPECT_THAT(keys(gates().others), ElementsAre("cure/51"));
}

TEST_F(GateStates, AGateThatNobodyCanReadIsNotMet) {
    const StageGates found = gates(2);
    ASSERT_EQ(found.gates.size(), 1U);
    EXPECT_FALSE(found.gates[0].needs.has_value());
    EXPECT_FALSE(found.gates[0].met());
    EXPECT_THAT(keys(found.gates[0].others), ElementsAre("needs/23/moonlight"));
    EXPECT_THAT(gates(99).gates, IsEmpty());
}

} // namespace
} // namespace rodway
