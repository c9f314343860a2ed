#include "core/barring/full_lift_order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>

#include "tests/core/barring/plain_engine.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

/// Where a lobe is highest, by looking every tenth of a degree.
double sampled_full_lift_deg(const Engine& engine, const ValvePosition& valve) {
    double highest = -1.0;
    double at = 0.0;
    for (int sample = 0; sample < 7200; ++sample) {
        const double lift = engine.lobe_lift_mm(valve, CrankAngle::deg(0.1 * sample));
        if (lift > highest) {
            highest = lift;
            at = 0.1 * sample;
        }
    }
    return at;
}

/// Each valve once, turns that add up to the stops' angles, every stop where sampling finds its
/// valves' full lift.
void expect_a_walk(const Engine& engine, CrankAngle from, double together_deg) {
    const auto order = full_lift_order(engine, from, together_deg);
    ASSERT_TRUE(order.ok());
    std::vector<ValvePosition> met;
    double turned = 0.0;
    for (const FullLiftStop& stop : *order) {
        EXPECT_GE(stop.turn_deg, 0.0);
        turned += stop.turn_deg;
        const double off = degrees_ahead(from + CrankAngle::deg(turned), stop.at);
        EXPECT_LT(std::min(off, 720.0 - off), 1e-6);
        for (const ValvePosition& valve : stop.valves) {
            met.push_back(valve);
            const CrankAngle sampled = CrankAngle::deg(sampled_full_lift_deg(engine, valve));
            // One step of the sampling, and half of what shares a stop.
            EXPECT_LE(std::min(degrees_ahead(sampled, stop.at), degrees_ahead(stop.at, sampled)),
                      0.1 + together_deg / 2.0)
                << position_name(valve);
        }
    }
    EXPECT_LE(turned, 720.0);
    std::sort(met.begin(), met.end());
    EXPECT_EQ(met, all_valves(engine));
}

TEST(FullLiftOrder, StandsWhereSamplingFindsFullLiftOnEveryDemoEngine) {
    for (const char* name : demo_names) {
        SCOPED_TRACE(name);
        const Engine engine = demo_engine(name);
        for (const double from : {0.0, 137.3, -1000.0}) {
            expect_a_walk(engine, CrankAngle::deg(from), same_stop_deg);
        }
    }
}

TEST(FullLiftOrder, HoldsForEnginesThatFireUnevenly) {
    constexpr std::uint64_t seed = 77;
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    const Lobe lobe = smooth_lobe(280.0);
    for (int time = 0; time < 10; ++time) {
        std::vector<double> firing{0.0};
        for (int cylinder = 1; cylinder < 5; ++cylinder) {
            firing.push_back(std::uniform_real_distribution<double>(0.0, 720.0)(random));
        }
        const Engine engine =
            plain_engine(firing, {lobe, 14.2, 0.4, 104.0 + time}, {lobe, 14.2, 0.4, 118.0 - time});
        expect_a_walk(engine, CrankAngle::deg(50.0 * time), same_stop_deg);
    }
}

TEST(FullLiftOrder, ATwinWhoseCylindersFire270And450ApartIsWalkedUnevenly) {
    const Lobe lobe = smooth_lobe(280.0);
    const CamLobes lobes{lobe, 14.2, 0.4, 110.0};
    const Engine twin = plain_engine({0.0, 270.0}, lobes, lobes);
    const auto order = full_lift_order(twin, CrankAngle::deg(0.0));
    ASSERT_TRUE(order.ok());
    // Exhaust 250 and intake 470 after each cylinder's own firing: arithmetic of 360 ± 110.
    const std::vector<double> angles{20.0, 250.0, 470.0, 520.0};
    const std::vector<const char*> names{"2I", "1E", "1I", "2E"};
    ASSERT_EQ(order->size(), 4u);
    for (std::size_t at = 0; at < 4; ++at) {
        EXPECT_NEAR((*order)[at].at.in_deg(), angles[at], 1e-6);
        EXPECT_EQ(position_name((*order)[at].valves.front()), names[at]);
    }
    EXPECT_NEAR((*order)[1].turn_deg, 230.0, 1e-6);
}

TEST(FullLiftOrder, ValvesAtFullLiftTogetherShareAStopAndOthersDoNot) {
    const Lobe lobe = smooth_lobe(280.0);
    // Centrelines that add up to 220: on a four, one cylinder's exhaust peaks 180 after its
    // neighbour's, and intakes fall 40 after.
    const CamLobes lobes{lobe, 14.2, 0.4, 110.0};
    Engine engine = plain_engine({0.0, 180.0, 360.0, 540.0}, lobes, lobes);
    EXPECT_EQ(full_lift_order(engine, CrankAngle{})->size(), 8u);
    // At 90, an exhaust's full lift (270) is the intake's of the cylinder that fires 180 before
    // (450 - 180).
    engine.intake.centreline_crank_deg = 90.0;
    engine.exhaust.centreline_crank_deg = 90.0;
    const auto shared = full_lift_order(engine, CrankAngle{});
    ASSERT_EQ(shared->size(), 4u);
    EXPECT_EQ(shared->front().valves.size(), 2u);
    engine.exhaust.centreline_crank_deg = 90.4;
    const auto near = full_lift_order(engine, CrankAngle{});
    ASSERT_EQ(near->size(), 4u);
    EXPECT_NEAR(std::fmod(near->front().at.in_deg(), 180.0), 89.8, 1e-6); // half-way
    engine.exhaust.centreline_crank_deg = 90.6;
    EXPECT_EQ(full_lift_order(engine, CrankAngle{})->size(), 8u);
}

TEST(FullLiftOrder, WhoeverStandsAtAStopIsNotSentRoundTheCycleForIt) {
    const Engine engine = demo_engine("v8-port-tubes");
    const auto order = full_lift_order(engine, CrankAngle{});
    ASSERT_TRUE(order.ok());
    for (const FullLiftStop& stop : *order) {
        for (const double past : {0.0, 1e-12, 0.1}) {
            const auto here = full_lift_order(engine, stop.at + CrankAngle::deg(past));
            ASSERT_TRUE(here.ok());
            EXPECT_EQ(here->front().valves, stop.valves);
            EXPECT_NEAR(here->front().turn_deg, 0.0, 1e-9);
        }
    }
}

TEST(FullLiftOrder, ListsValvesWithoutATrainAndRefusesWhatIsNoNumber) {
    Engine engine = demo_engine("flat-four");
    engine.trains.erase(engine.trains.begin() + 2);
    std::size_t valves = 0;
    for (const FullLiftStop& stop : *full_lift_order(engine, CrankAngle{})) {
        valves += stop.valves.size();
    }
    EXPECT_EQ(valves, 8u);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(full_lift_order(engine, CrankAngle::deg(nan)).error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(full_lift_order(engine, CrankAngle{}, nan).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(full_lift_order(engine, CrankAngle{}, -0.1).error().limits->high, 10.0);
}

} // namespace
} // namespace rodway
