#include "core/barring/valve_arcs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "tests/core/barring/plain_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_barring.h"

namespace rodway {
namespace {

/// Every sample within the arc is set, every one outside isn't; the last bit of the sampling's own
/// step around both ends is left open.
void expect_same(const CrankArc& arc, const std::vector<bool>& sampled, const std::string& which) {
    constexpr double rounding_deg = 1e-6; // of root finding, far below the step
    for (int sample = 0; sample < twins::samples_in_cycle; ++sample) {
        const CrankAngle crank = CrankAngle::deg(sample * twins::sample_deg);
        const double to_end =
            std::min({degrees_ahead(arc.from, crank), degrees_ahead(arc.to(), crank),
                      degrees_ahead(crank, arc.from), degrees_ahead(crank, arc.to())});
        if (to_end > rounding_deg) {
            ASSERT_EQ(arc.holds(crank), sampled[static_cast<std::size_t>(sample)])
                << which << " at " << crank.in_deg() << " arc " << arc.from.in_deg() << " + "
                << arc.span_deg;
        }
    }
}

TEST(ValveArcs, AreWhatSamplingEveryTenthOfADegreeFinds) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        const auto arcs = valve_arcs(engine);
        ASSERT_TRUE(arcs.ok());
        const auto sampled = twins::sample_cycle(engine);
        ASSERT_EQ(arcs->size(), sampled.size());
        for (std::size_t at = 0; at < sampled.size(); ++at) {
            const ValveArcs& valve = (*arcs)[at];
            const std::string which = std::string(name) + ' ' + position_name(valve.position);
            ASSERT_EQ(valve.position, sampled[at].position);
            ASSERT_TRUE(valve.open.has_value()) << which;
            EXPECT_FALSE(valve.lobe_estimated);
            expect_same(valve.off_heel, sampled[at].off_heel, which + " off the heel");
            expect_same(*valve.open, sampled[at].open, which + " open");
            EXPECT_LT(valve.open->span_deg, valve.off_heel.span_deg - 5.0) << which; // lash
            const auto highest =
                std::max_element(sampled[at].lobe_lift_mm.begin(), sampled[at].lobe_lift_mm.end()) -
                sampled[at].lobe_lift_mm.begin();
            const double sampled_deg = static_cast<double>(highest) * twins::sample_deg;
            // Between two samples: their step.
            EXPECT_LT(std::min(degrees_ahead(valve.full_lift, CrankAngle::deg(sampled_deg)),
                               degrees_ahead(CrankAngle::deg(sampled_deg), valve.full_lift)),
                      twins::sample_deg)
                << which;
        }
    }
}

TEST(ValveArcs, TheNetLiftAtBothEndsIsNoneOrWhatWasAskedFor) {
    const Engine engine = demo_engine("v8-port-tubes");
    for (const double lift : {0.0, 0.254, 3.0}) {
        for (const Train& train : engine.trains) {
            const auto arc = valve_above(engine, train.position, lift);
            ASSERT_TRUE(arc && arc->span_deg > 0.0);
            const auto linkage = Linkage::close(train).linkage;
            for (const CrankAngle end : {arc->from, arc->to()}) {
                const auto pose = linkage->at(engine.lobe_lift_mm(train.position, end));
                // Signed, so that a valve well shut would not pass for one at its seat. Rounding
                // only: an arc's end is a root.
                EXPECT_NEAR(linkage->gross_lift_mm(*pose) - train.valve.lash_mm, lift, 1e-9);
            }
        }
    }
}

TEST(ValveArcs, WithoutLashAValveOpensWhereItsLobeLeavesTheHeel) {
    const Lobe lobe = smooth_lobe(300.0);
    const CamLobes lobes{lobe, 14.2, 0.0, 110.0};
    Engine engine = plain_engine({0.0}, lobes, lobes);
    give_trains(engine);
    const auto arcs = valve_arcs(engine);
    ASSERT_TRUE(arcs.ok());
    for (const ValveArcs& valve : *arcs) {
        ASSERT_TRUE(valve.open.has_value());
        EXPECT_NEAR(valve.open->span_deg, valve.off_heel.span_deg, 1e-9);
        EXPECT_NEAR(valve.open->span_deg, off_heel_deg(lobe), 1e-9);
    }
}

TEST(ValveArcs, LashThatTakesUpAllTheLiftLeavesAnArcOfNoSpan) {
    const CamLobes lobes{smooth_lobe(300.0), 14.2, 20.0, 110.0}; // 9 mm at 1.5 lift no more than 14
    Engine engine = plain_engine({0.0}, lobes, lobes);
    give_trains(engine);
    const auto arcs = valve_arcs(engine);
    ASSERT_TRUE(arcs.ok() && arcs->front().open.has_value());
    EXPECT_EQ(arcs->front().open->span_deg, 0.0);
    EXPECT_GT(arcs->front().off_heel.span_deg, 299.0);
}

TEST(ValveArcs, WhatDoesNotCloseOrIsMissingIsUnknownNotShut) {
    Engine engine = demo_engine("v8-port-tubes");
    engine.trains[0].rod.length_mm += 30.0;
    engine.trains[1].rocker.pivot_K.y() += 500.0;
    const ValvePosition missing = engine.trains[3].position;
    engine.trains.erase(engine.trains.begin() + 3);
    const auto arcs = valve_arcs(engine);
    ASSERT_TRUE(arcs.ok());
    ASSERT_EQ(arcs->size(), 16u); // the missing one is there
    EXPECT_FALSE((*arcs)[0].open.has_value());
    EXPECT_EQ((*arcs)[0].status, TrainStatus::adjuster_out_of_thread);
    EXPECT_TRUE((*arcs)[0].has_train);
    EXPECT_FALSE((*arcs)[1].open.has_value());
    EXPECT_TRUE((*arcs)[2].open.has_value());
    EXPECT_EQ((*arcs)[3].position, missing);
    EXPECT_FALSE((*arcs)[3].has_train);
    EXPECT_FALSE((*arcs)[3].open.has_value());
    EXPECT_GT((*arcs)[3].off_heel.span_deg, 200.0); // its lobe is known
}

TEST(ValveArcs, ATrainThatMeetsADeadPointOnItsWayUpHasNoArc) {
    const CamLobes lobes{smooth_lobe(300.0), 14.2, 0.4, 110.0};
    Engine engine = plain_engine({0.0}, lobes, lobes);
    give_trains(engine);
    // A ball arm of 5 mm turns 64 degrees in 4.5 mm and can't follow 9.
    engine.trains[0].rocker.ball_arm_K = Vec3(0.0, -5.0, 0.0);
    engine.trains[0].lifter.foot_K.y() = -5.0;
    ASSERT_TRUE(Linkage::close(engine.trains[0]).linkage.has_value());
    const auto arcs = valve_arcs(engine);
    ASSERT_TRUE(arcs.ok());
    EXPECT_FALSE((*arcs)[0].open.has_value());
    EXPECT_NE((*arcs)[0].status, TrainStatus::answered);
    EXPECT_TRUE((*arcs)[1].open.has_value());
}

TEST(ValveArcs, ACentrelineThatIsNoNumberIsRefusedByItsValve) {
    Engine engine = demo_engine("flat-four");
    engine.exhaust.centreline_crank_deg = std::numeric_limits<double>::quiet_NaN();
    const auto arcs = valve_arcs(engine);
    ASSERT_FALSE(arcs.ok());
    EXPECT_EQ(arcs.error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(arcs.error().field, "full_lift/1E");
}

TEST(ValveArcs, NoValveIsToldAtACrankAngleThatIsNoNumber) {
    const Engine engine = demo_engine("flat-four");
    EXPECT_TRUE(
        valves_at(engine, CrankAngle::deg(std::numeric_limits<double>::quiet_NaN())).empty());
    EXPECT_TRUE(
        valves_at(engine, CrankAngle::deg(std::numeric_limits<double>::infinity())).empty());
    EXPECT_FALSE(valves_at(engine, CrankAngle::deg(0.0)).empty());
}

} // namespace
} // namespace rodway
