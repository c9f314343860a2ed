#include "core/clearance/running_clearance.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/clearance/certified_minimum.h"
#include "core/clearance/doubt.h"
#include "core/clearance/survey.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_distance.h"

namespace rodway {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double runout_mm = 0.12;

/// A demo engine with bowed rods and springs, its rods as they are sold.
Engine bowed_engine(const std::string& demo, double indicator_mm) {
    Engine engine = demo_engine(demo);
    engine.doubt = {};
    engine.doubt.rod_runout = StatedSize{indicator_mm, DoubtSource::measured};
    for (const Train& train : engine.trains) {
        engine.springs.emplace(train.position,
                               ValveSpring{48.0, {{48.0, 650.0}, {30.0, 1900.0}}, {}, {}, {}});
    }
    return engine;
}

RunningStated stated_for(const Engine& engine, double wall_mm = 2.0,
                         double modulus_MPa = 207000.0) {
    RunningStated stated;
    for (const Train& train : engine.trains) {
        stated.valves[train.position] = {wall_mm, modulus_MPa, {}, {}, {}, {}};
    }
    return stated;
}

void state_inertia(RunningStated& stated, double rpm) {
    stated.crank_rpm = rpm;
    for (auto& [valve, its] : stated.valves) {
        its.valve_side_t = 1.5e-4;
        its.rocker_at_valve_t = 4e-5;
        its.rod_t = 6e-5;
    }
}

/// What is left at one crank angle, the slow and obvious way: the load by differences of the lift,
/// every tenth of a millimetre of the rod measured by itself.
struct SlowLook {
    bool open = false;
    double load_N = 0.0;
    double left_mm = 0.0;
};

SlowLook slow_look(const Engine& engine, const Train& train, const RunningValve& rod,
                   std::optional<double> rpm, double crank_deg) {
    const Linkage linkage = *Linkage::close(train).linkage;
    const auto lift_at = [&](double deg) {
        return engine.lobe_lift_mm(train.position, CrankAngle::deg(deg));
    };
    const auto gross = [&](double lobe_lift) {
        return linkage.gross_lift_mm(*linkage.at(lobe_lift));
    };
    const double s = lift_at(crank_deg);
    const Pose pose = *linkage.at(s);
    SlowLook look;
    const double net = gross(s) - linkage.lash_mm();
    look.open = s > 1e-9 && net > 0.0;
    if (look.open) {
        const ValveSpring& spring = *engine.spring(train.position);
        double at_valve = spring.load_N(spring.installed_height_mm - net);
        double lifter_acceleration = 0.0;
        if (rpm) {
            constexpr double step_deg = 0.1;
            const double step_s = step_deg / (*rpm * 6.0);
            const double before = lift_at(crank_deg - step_deg);
            const double after = lift_at(crank_deg + step_deg);
            lifter_acceleration = (after - 2.0 * s + before) / (step_s * step_s);
            at_valve += (*rod.valve_side_t + *rod.rocker_at_valve_t) *
                        (gross(after) - 2.0 * gross(s) + gross(before)) / (step_s * step_s);
        }
        const double ratio =
            (gross(s + 1e-4) - gross(std::max(0.0, s - 1e-4))) / (1e-4 + std::min(s, 1e-4));
        const double along =
            (pose.upper_ball_K - pose.lower_ball_K).normalized().dot(train.lifter.axis_K);
        look.load_N =
            at_valve * ratio / along + rod.rod_t.value_or(0.0) / 2.0 * lifter_acceleration * along;
    }
    const double outside = train.rod.diameter_mm;
    const double inside = outside - 2.0 * *rod.wall_mm;
    const double critical = pi * pi * *rod.modulus_MPa * pi / 64.0 *
                            (std::pow(outside, 4) - std::pow(inside, 4)) /
                            std::pow(train.rod.length_mm, 2);
    const double bow = engine.doubt.rod_runout->size / 2.0 / (1.0 - look.load_N / critical);
    const Bore tube = *engine.tube_in_place(train);
    look.left_mm = 1e9;
    for (double x = 0.0; x <= train.rod.length_mm; x += 0.1) {
        const Vec3 point =
            pose.lower_ball_K + x / train.rod.length_mm * (pose.upper_ball_K - pose.lower_ball_K);
        look.left_mm = std::min(look.left_mm, twins::slow_distance(tube, point) - outside / 2.0 -
                                                  bow * std::sin(pi * x / train.rod.length_mm));
    }
    return look;
}

void expect_as_slow(const Engine& engine, const RunningStated& stated, std::size_t at) {
    const Train& train = engine.trains[at];
    const RunningValve& rod = stated.valves.at(train.position);
    const auto rpm = rod.rod_t ? stated.crank_rpm : std::nullopt;
    double open = 1e9;
    double shut = 1e9;
    double most = 0.0;
    double open_at = 0.0;
    bool heel_seen = false;
    for (double crank = 0.0; crank < 720.0; crank += 0.25) {
        const bool on_heel = engine.lobe_lift_mm(train.position, CrankAngle::deg(crank)) == 0.0;
        if (on_heel && heel_seen) {
            continue; // all round the base circle it is the same
        }
        heel_seen = heel_seen || on_heel;
        const SlowLook look = slow_look(engine, train, rod, rpm, crank);
        double& least = look.open ? open : shut;
        if (look.left_mm < least) {
            least = look.left_mm;
            open_at = look.open ? crank : open_at;
        }
        most = std::max(most, look.load_N);
    }
    const auto found = running_clearances(engine, stated);
    const ValveInMotion& valve = (*found)[at];
    const std::string name = position_name(train.position);
    ASSERT_EQ(valve.status, RunningStatus::answered) << name;
    // 0.3 % of the bow, its rod looked at in pieces of 0.1 mm and the crank in degrees.
    EXPECT_NEAR(valve.open->left.clearance_mm, open, 0.002) << name;
    EXPECT_NEAR(valve.shut->left.clearance_mm, shut, 0.002) << name;
    EXPECT_NEAR(*valve.greatest_N, most, 0.004 * most) << name;
    // The place: what is left there, looked at slowly, is as little.
    const SlowLook there = slow_look(engine, train, rod, rpm, valve.open->at->in_deg());
    EXPECT_TRUE(there.open) << name;
    EXPECT_NEAR(there.left_mm, valve.open->left.clearance_mm, 0.002) << name;
    EXPECT_NEAR(there.load_N, valve.open->load_N, 0.004 * most) << name;
    EXPECT_LE(valve.open->left.clearance_mm, open + 1e-3);
}

TEST(RunningClearance, IsWhatLookingAtEveryPlaceAtEveryAngleFinds) {
    const Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    RunningStated stated = stated_for(engine, 1.6);
    expect_as_slow(engine, stated, 4);
    state_inertia(stated, 5000.0);
    for (const std::size_t at : {0U, 5U}) {
        expect_as_slow(engine, stated, at);
    }
}

// A lobe that shuts its valve faster than it opens it: the load is greatest on the way down.
TEST(RunningClearance, BothFlanksOfALobeAreLookedAt) {
    Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    const double lift_mm = engine.intake.lobe.full_lift_mm();
    engine.intake.lobe =
        *Lobe::from_law(MotionLaw::cycloidal, lift_mm, CamAngle::deg(85.0), CamAngle::deg(58.0));
    RunningStated stated = stated_for(engine, 2.4);
    state_inertia(stated, 5000.0);
    expect_as_slow(engine, stated, 0);
    const ValveInMotion valve = (*running_clearances(engine, stated))[0];
    const double after_full_lift =
        (valve.open->at.value() - engine.full_lift_angle(valve.valve)).in_cycle().in_deg();
    EXPECT_GT(after_full_lift, 0.0);
    EXPECT_LT(after_full_lift, 120.0) << "on the closing flank";
}

// No spring to speak of and a stiff rod: the bow is as it was laid on the bench. At the witness of
// the certified minimum of the straight rod it takes half of the reading by the sine there.
TEST(RunningClearance, WithoutLoadTheBowAtRestIsAllThatIsLost) {
    Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    for (auto& [valve, spring] : engine.springs) {
        spring = ValveSpring{48.0, {{48.0, 1e-6}, {30.0, 2e-6}}, {}, {}, {}};
    }
    const auto lines = survey(engine);
    const auto found = running_clearances(engine, stated_for(engine));
    for (std::size_t at = 0; at < found->size(); ++at) {
        const ValveInMotion& valve = (*found)[at];
        const RodClearance& straight = *(*lines)[at].found.minimum;
        const double bow =
            runout_mm / 2.0 * std::sin(pi * straight.station_mm / engine.trains[at].rod.length_mm);
        ASSERT_NE(valve.least(), nullptr);
        // The bow may make another place the nearest: never more, and hardly less, is left.
        EXPECT_LE(valve.least()->left.clearance_mm, straight.clearance_mm - bow + 0.0004);
        EXPECT_GE(valve.least()->left.clearance_mm, straight.clearance_mm - runout_mm / 2.0);
        EXPECT_NEAR(*valve.bow_most_mm, runout_mm / 2.0, 1e-8);
        EXPECT_NEAR(*valve.bow_rest_mm, runout_mm / 2.0, 1e-15);
        EXPECT_NEAR(
            valve.least()->bow_mm,
            runout_mm / 2.0 *
                std::sin(pi * valve.least()->left.station_mm / engine.trains[at].rod.length_mm),
            1e-8);
    }
}

TEST(RunningClearance, AStraightRodHasInMotionWhatItHasAtRest) {
    const Engine engine = bowed_engine("v8-port-tubes", 0.0);
    const auto lines = survey(engine);
    const auto found = running_clearances(engine, stated_for(engine));
    for (std::size_t at = 0; at < found->size(); ++at) {
        const CertifiedMinimum& rod = (*lines)[at].all.front();
        // The search in looks against the one with proof, 0.0005 mm.
        EXPECT_NEAR((*found)[at].least()->left.clearance_mm, rod.minimum->clearance_mm, 0.0006);
    }
}

// A tube's critical load goes with the fourth powers of its diameters: four fifths of the modulus
// are a bow of 1/(1 - 1.25q) for one of 1/(1 - q).
TEST(RunningClearance, ASofterRodBowsFurther) {
    const Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    const auto stiff = running_clearances(engine, stated_for(engine, 2.0, 207000.0));
    const auto soft = running_clearances(engine, stated_for(engine, 2.0, 165600.0));
    const ValveInMotion& one = (*stiff)[0];
    const ValveInMotion& other = (*soft)[0];
    EXPECT_NEAR(*other.critical_N, *one.critical_N * 0.8, 1e-6);
    EXPECT_EQ(*other.greatest_N, *one.greatest_N);
    const double q = *one.greatest_N / *one.critical_N;
    ASSERT_GT(q, 0.1);
    EXPECT_NEAR(*one.bow_most_mm, runout_mm / 2.0 / (1.0 - q), 1e-9);
    EXPECT_NEAR(*other.bow_most_mm, runout_mm / 2.0 / (1.0 - 1.25 * q), 1e-9);
    EXPECT_LT(other.open->left.clearance_mm, one.open->left.clearance_mm);
    EXPECT_EQ(other.shut->left.clearance_mm, one.shut->left.clearance_mm) << "no load there";
}

TEST(RunningClearance, ARodThatGivesWayHasNoFigure) {
    const Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    const auto found = running_clearances(engine, stated_for(engine, 0.2, 40000.0));
    for (const ValveInMotion& valve : *found) {
        ASSERT_GE(*valve.greatest_N, *valve.critical_N);
        EXPECT_EQ(valve.status, RunningStatus::buckles);
        EXPECT_FALSE(valve.bow_most_mm || valve.open || valve.shut || valve.verdict);
        EXPECT_EQ(valve.least(), nullptr);
    }
}

TEST(RunningClearance, ASpeedTheSpringCantHoldIsSaidAndNotWorkedOut) {
    Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    for (auto& [valve, spring] : engine.springs) {
        spring = ValveSpring{48.0, {{48.0, 100.0}, {30.0, 300.0}}, {}, {}, {}};
    }
    RunningStated stated = stated_for(engine);
    state_inertia(stated, 1500.0);
    for (const ValveInMotion& valve : *running_clearances(engine, stated)) {
        EXPECT_EQ(valve.status, RunningStatus::answered);
        EXPECT_GT(*valve.least_N, 0.0);
    }
    stated.crank_rpm = 4000.0;
    for (const ValveInMotion& valve : *running_clearances(engine, stated)) {
        EXPECT_EQ(valve.status, RunningStatus::lifts_off);
        EXPECT_LT(*valve.least_N, 0.0);
        EXPECT_FALSE(valve.open || valve.verdict);
    }
}

TEST(RunningClearance, WhatIsMissingIsNamedAndNothingIsAssumedForIt) {
    Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    RunningStated stated = stated_for(engine);
    const auto first = [&] { return (*running_clearances(engine, stated))[0]; };
    EXPECT_EQ(first().missing_for_inertia,
              (std::vector<std::string>{"running/speed", "running/masses/intake/valve_side",
                                        "running/masses/intake/rocker_at_valve",
                                        "running/masses/intake/rod"}));
    const double still_N = *first().greatest_N;
    state_inertia(stated, 6000.0);
    EXPECT_TRUE(first().missing_for_inertia.empty());
    EXPECT_NE(*first().greatest_N, still_N);
    stated.valves.begin()->second.rod_t.reset();
    EXPECT_EQ(first().missing_for_inertia, std::vector<std::string>{"running/masses/intake/rod"});
    EXPECT_EQ(*first().greatest_N, still_N) << "half an inertia is none";
    stated.valves.begin()->second.wall_mm.reset();
    stated.valves.begin()->second.modulus_MPa.reset();
    engine.springs.clear();
    engine.doubt.rod_runout.reset();
    EXPECT_EQ(first().missing,
              (std::vector<std::string>{"running/rods/intake/runout", "running/rods/intake/wall",
                                        "running/rods/intake/modulus", "springs/intake/loads"}));
    EXPECT_EQ(first().status, RunningStatus::not_stated);
    EXPECT_FALSE(first().greatest_N || first().critical_N || first().least());
}

TEST(RunningClearance, TheVerdictIsOfWhatIsLeftAndCountsTheBowOnce) {
    Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    engine.assumed_doubt_mm = 0.05;
    const auto found = running_clearances(engine, stated_for(engine));
    const auto lines = survey(engine);
    int worse_than_still = 0;
    for (std::size_t at = 0; at < found->size(); ++at) {
        const ValveInMotion& valve = (*found)[at];
        EXPECT_EQ(*valve.doubt_mm, 0.05) << "nothing else is stated: the bow is no doubt here";
        EXPECT_EQ(*valve.verdict, judge(valve.least()->left.clearance_mm, 0.05,
                                        RodClearanceLimits{engine.rod_clearance_limit_mm}));
        worse_than_still += *valve.verdict != *(*lines)[at].verdict ? 1 : 0;
    }
    engine.doubt.inputs[ParameterKind::passage_bore] = {0.02, DoubtSource::measured};
    const auto with_input = running_clearances(engine, stated_for(engine));
    EXPECT_NEAR(*(*with_input)[0].doubt_mm, 2.0 * 0.02 / 2.0, 0.001);
}

// Rods are turned one by one: what one shows goes before what is said of all.
TEST(RunningClearance, ARodsOwnReadingGoesBeforeThatOfAll) {
    const Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    RunningStated stated = stated_for(engine);
    stated.valves.begin()->second.runout_mm = 0.03;
    const auto found = running_clearances(engine, stated);
    EXPECT_NEAR(*(*found)[0].bow_rest_mm, 0.015, 1e-15);
    EXPECT_NEAR(*(*found)[1].bow_rest_mm, runout_mm / 2.0, 1e-15);
    Engine unstated = engine;
    unstated.doubt.rod_runout.reset();
    const auto alone = running_clearances(unstated, stated);
    EXPECT_EQ((*alone)[0].status, RunningStatus::answered);
    EXPECT_EQ((*alone)[1].status, RunningStatus::not_stated);
    EXPECT_EQ((*alone)[0].least()->left.clearance_mm, (*found)[0].least()->left.clearance_mm);
}

// A rod that necks down is as stiff as its neck all along: it bears less than it would, never more.
TEST(RunningClearance, ARodWithAProfileIsAsStiffAsItsThinnest) {
    Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    Train& train = engine.trains[0];
    const double d = train.rod.diameter_mm;
    train.rod.profile = {
        {0.0, 60.0, d, d}, {60.0, 120.0, d - 1.5, d - 1.5}, {120.0, train.rod.length_mm, d, d}};
    const auto necked = running_clearances(engine, stated_for(engine));
    for (Train& each : engine.trains) {
        each.rod.profile.clear();
        each.rod.diameter_mm = d - 1.5;
    }
    const auto thin = running_clearances(engine, stated_for(engine));
    EXPECT_NEAR(*(*necked)[0].critical_N, *(*thin)[0].critical_N, 1e-9);
}

TEST(RunningClearance, EveryDemoEngineIsAnsweredAndAStopEndsIt) {
    for (const char* demo : demo_names) {
        const Engine engine = bowed_engine(demo, 0.05);
        const auto found = running_clearances(engine, stated_for(engine));
        ASSERT_EQ(found->size(), engine.trains.size());
        for (const ValveInMotion& valve : *found) {
            EXPECT_EQ(valve.status, RunningStatus::answered) << demo;
            EXPECT_TRUE(valve.open && valve.shut) << demo;
        }
    }
    std::stop_source stop;
    stop.request_stop();
    EXPECT_TRUE(running_clearances(demo_engine("v8-port-tubes"), {}, stop.get_token())->empty());
}

TEST(RunningClearance, ATrainThatDoesntCloseSaysSo) {
    Engine engine = bowed_engine("v8-port-tubes", runout_mm);
    engine.trains[0].adjuster.can_go_in_mm = 0.0;
    engine.trains[0].adjuster.can_go_out_mm = 0.0;
    engine.trains[0].rod.length_mm += 2.0;
    engine.trains[1].tube.bore.centre_K.x() += 30.0;
    const auto found = running_clearances(engine, stated_for(engine));
    EXPECT_EQ((*found)[0].status, RunningStatus::no_train);
    EXPECT_EQ((*found)[0].train, TrainStatus::adjuster_out_of_thread);
    EXPECT_EQ((*found)[1].status, RunningStatus::no_train);
    EXPECT_EQ((*found)[1].train, TrainStatus::does_not_go_through);
    EXPECT_EQ((*found)[2].status, RunningStatus::answered);
}

} // namespace
} // namespace rodway
