#include "core/build/part_unblocks.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

constexpr const char* today = "2026-11-30";

PartRecord part(std::int64_t id, const char* role) {
    PartRecord made;
    made.id = id;
    made.build_id = 1;
    made.item = role;
    made.role = role;
    return made;
}

/// Two stages; the second is given first.
PartPlan plan() {
    PartPlan made;
    Stage heads{1, 1, 1, "Heads", {}};
    Stage intake{2, 1, 2, "Intake", {}};
    made.stages = {heads, intake};
    Step on{10, 1, 1, "Heads on", {}, {}};
    on.part_roles = "head_gasket, head_bolt";
    Step dry_fit{20, 2, 1, "Dry fit", {}, {}};
    dry_fit.part_roles = "intake_gasket";
    Step look{21, 2, 2, "Look", {}, {}};
    made.steps = {on, dry_fit, look};
    Gate gate{30, 1, 1, "Heads torqued", "steps; parts head_bolt", {}};
    Gate broken{31, 2, 1, "Broken", "parts", {}};
    made.gates = {gate, broken};
    made.parts = {part(1, "head_gasket"), part(2, "head_bolt"), part(3, "intake_gasket")};
    return made;
}

TEST(PartUnblocks, NamesStepsAndGatesAndHowManyOthersTheyWaitFor) {
    const PartPlan facts = plan();
    const auto bolts = unblocked_by(facts, facts.parts[1], today);
    ASSERT_EQ(bolts.size(), 2u);
    EXPECT_EQ(bolts[0].step_id, 10);
    EXPECT_EQ(bolts[0].others, 1); // the gasket
    EXPECT_EQ(bolts[1].gate_id, 30);
    EXPECT_EQ(bolts[1].others, 0);
    const auto gasket = unblocked_by(facts, facts.parts[2], today);
    ASSERT_EQ(gasket.size(), 1u);
    EXPECT_EQ(gasket[0].stage_id, 2);
    EXPECT_EQ(gasket[0].step_id, 20);
    EXPECT_EQ(gasket[0].others, 0);
}

TEST(PartUnblocks, ByItsOwnStepWithoutARoleOfItsOwn) {
    PartPlan facts = plan();
    PartRecord lamp = part(4, "other");
    lamp.step_id = 21;
    facts.parts.push_back(lamp);
    const auto waiting = unblocked_by(facts, lamp, today);
    ASSERT_EQ(waiting.size(), 1u);
    EXPECT_EQ(waiting[0].step_id, 21);
}

TEST(PartUnblocks, NothingForWhatIsHereIsReplacedOrNotWaitedFor) {
    PartPlan facts = plan();
    facts.parts[0].received = "2026-11-20";
    EXPECT_TRUE(unblocked_by(facts, facts.parts[0], today).empty());
    // It no longer counts among the others either.
    EXPECT_EQ(unblocked_by(facts, facts.parts[1], today)[0].others, 0);
    facts.steps[0].ticked_at = "2026-11-25T09:00:00Z";
    EXPECT_EQ(unblocked_by(facts, facts.parts[1], today).size(), 1u); // the gate alone
    PartRecord better = part(5, "head_bolt");
    better.replaces_id = 2;
    facts.parts.push_back(better);
    EXPECT_TRUE(unblocked_by(facts, facts.parts[1], today).empty());
    EXPECT_EQ(unblocked_by(facts, better, today).size(), 1u);
}

} // namespace
} // namespace rodway
