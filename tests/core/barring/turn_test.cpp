#include "core/barring/turn.h"

#include <gtest/gtest.h>

#include <limits>

#include "core/barring/full_lift_order.h"
#include "core/barring/lash_walk.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

TEST(Turn, GoesTheWayTheEngineRunsAndIsTheOtherHandFromTheFlywheelEnd) {
    const Engine eight = demo_engine("v8-port-tubes"); // clockwise
    const auto on = turn_to(eight.layout, CrankAngle::deg(90.0), CrankAngle::deg(100.0));
    const auto round = turn_to(eight.layout, CrankAngle::deg(100.0), CrankAngle::deg(90.0));
    ASSERT_TRUE(on.ok() && round.ok());
    EXPECT_DOUBLE_EQ(on->degrees, 10.0);
    EXPECT_DOUBLE_EQ(round->degrees, 710.0); // never back
    EXPECT_EQ(round->from_front, Turning::clockwise);
    EXPECT_EQ(round->from_flywheel_end, Turning::counter_clockwise);

    const Engine six = demo_engine("inline-six"); // counter-clockwise
    const auto left = turn_to(six.layout, CrankAngle::deg(90.0), CrankAngle::deg(100.0));
    ASSERT_TRUE(left.ok());
    EXPECT_DOUBLE_EQ(left->degrees, 10.0);
    EXPECT_EQ(left->from_front, Turning::counter_clockwise);
    EXPECT_EQ(left->from_flywheel_end, Turning::clockwise);
}

TEST(Turn, RefusesAnglesThatAreNoNumbersByName) {
    const Engine engine = demo_engine("flat-four");
    const CrankAngle bad = CrankAngle::deg(std::numeric_limits<double>::quiet_NaN());
    EXPECT_EQ(turn_to(engine.layout, bad, CrankAngle{}).error().field, "from");
    EXPECT_EQ(turn_to(engine.layout, CrankAngle{}, bad).error().field, "to");
}

/// Valves in the order in which they come to full lift.
std::vector<ValvePosition> sequence(const Engine& engine) {
    std::vector<ValvePosition> valves;
    const auto order = full_lift_order(engine, CrankAngle{});
    EXPECT_TRUE(order.ok());
    for (const FullLiftStop& stop : *order) {
        valves.insert(valves.end(), stop.valves.begin(), stop.valves.end());
    }
    return valves;
}

TEST(Turn, AnEngineOfTheOtherHandComesToTheSameValvesInTheSameOrder) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        Engine other = engine;
        other.layout.turning = other_hand(engine.layout.turning);
        EXPECT_EQ(sequence(engine), sequence(other)) << name;
        const auto walk = lash_walk(engine, CrankAngle{});
        const auto other_walk = lash_walk(other, CrankAngle{});
        ASSERT_TRUE(walk.ok() && other_walk.ok());
        ASSERT_EQ(walk->steps.size(), other_walk->steps.size());
        for (std::size_t at = 0; at < walk->steps.size(); ++at) {
            const CrankAngle to = walk->steps[at].at;
            EXPECT_EQ(to, other_walk->steps[at].at);
            EXPECT_EQ(walk->steps[at].set, other_walk->steps[at].set);
            const auto turn = turn_to(engine.layout, CrankAngle{}, to);
            const auto other_turn = turn_to(other.layout, CrankAngle{}, to);
            EXPECT_EQ(turn->degrees, other_turn->degrees);
            EXPECT_NE(turn->from_front, other_turn->from_front);
        }
    }
}

TEST(Turn, AFiringOrderThatRunsTheOtherWayRoundMustBeGivenAndIsAnotherSequence) {
    // The second of a pair: turned round and driven through a gear, it fires 1-2-7-5-6-3-4-8, the
    // first one's order backwards. Setting the hand alone must not stand for that.
    const SetUpFields fields = demo_fields("v8-port-tubes");
    SetUpFields turned = fields;
    turned["engine/turns"].text = "counter_clockwise";
    SetUpFields reversed = turned;
    reversed["engine/firing_order"].text = "1-2-7-5-6-3-4-8";
    const auto one = make_engine(fields);
    const auto hand_only = make_engine(turned);
    const auto pair = make_engine(reversed);
    ASSERT_TRUE(one.ok() && hand_only.ok() && pair.ok());
    EXPECT_EQ(sequence(*hand_only), sequence(*one));
    EXPECT_NE(sequence(*pair), sequence(*one));
    // Cylinder 8 fires second in the one and last in the other: 90 and 7 × 90 degrees on.
    EXPECT_DOUBLE_EQ(one->layout.firing_angle(8).in_deg(), 90.0);
    EXPECT_DOUBLE_EQ(hand_only->layout.firing_angle(8).in_deg(), 90.0);
    EXPECT_DOUBLE_EQ(pair->layout.firing_angle(8).in_deg(), 630.0);
}

} // namespace
} // namespace rodway
