#include "core/loads/shaft_load.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "core/barring/valve_arcs.h"
#include "tests/core/barring/plain_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_barring.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

TEST(ShaftLoad, IsTheLeversWhereEverythingStandsUpright) {
    // Arms of 20 and 30 mm square to rod and valve: 1000 N at the valve needs 1500 N from the rod,
    // and the shaft holds both down: the law of the lever.
    const Train train = upright_train({1, ValveKind::intake, 1}, 0.0);
    const auto linkage = Linkage::close(train).linkage;
    const auto pose = linkage->at(0.0);
    const RockerForces forces = rocker_forces(train, *linkage, *pose, 1000.0);
    EXPECT_NEAR(forces.rod_N, 1500.0, 1e-9);
    EXPECT_NEAR((forces.on_pivot_K - Vec3(0.0, 0.0, 2500.0)).norm(), 0.0, 1e-9);
    EXPECT_EQ(forces.spring_N, 1000.0);
}

TEST(ShaftLoad, ARodThatLeansAlongTheShaftPushesAlongItToo) {
    Train train = upright_train({1, ValveKind::intake, 1}, 0.0);
    train.lifter.foot_K.x() -= 40.0;
    train.rod.length_mm = std::hypot(200.0, 40.0);
    const auto linkage = Linkage::close(train).linkage;
    ASSERT_TRUE(linkage.has_value());
    const RockerForces forces = rocker_forces(train, *linkage, *linkage->at(0.0), 1000.0);
    // Still 1500 N of it upright, along a rod that leans 40 in 200: similar triangles.
    EXPECT_NEAR(forces.rod_N, 1500.0 * std::hypot(200.0, 40.0) / 200.0, 1e-6);
    EXPECT_NEAR((forces.on_pivot_K - Vec3(300.0, 0.0, 2500.0)).norm(), 0.0, 1e-6);
}

TEST(ShaftLoad, RandomTrainsBalanceInForceAndInMomentAndAgreeWithTheSlowTwin) {
    constexpr std::uint64_t seed = 31415;
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    int checked = 0;
    for (int time = 0; time < 300; ++time) {
        const auto made = twins::random_train(random);
        const auto linkage = Linkage::close(made.train).linkage;
        if (!linkage) {
            continue;
        }
        for (const double share : {0.1, 0.5, 1.0}) {
            const double s = share * made.full_lift_mm;
            const auto pose = linkage->at(s);
            if (!pose) {
                continue;
            }
            const RockerForces f = rocker_forces(made.train, *linkage, *pose, 900.0);
            // Sum of forces: valve tip, rod and what the shaft gives back.
            EXPECT_NEAR((f.tip_on_rocker_K + f.rod_on_rocker_K - f.on_pivot_K).norm(), 0.0, 1e-9);
            EXPECT_NEAR(f.tip_on_rocker_K.norm(), 900.0, 1e-9);
            EXPECT_NEAR(f.rod_on_rocker_K.norm(), f.rod_N, 1e-9);
            EXPECT_GT(f.rod_N, 0.0); // the rod pushes
            // Moments about the shaft, N·mm: rounding of arms of some 30 mm and forces of 1e3 N.
            const Vec3 n = linkage->shaft_axis_K();
            const Vec3 tip = pose->roller_K - linkage->pivot_K();
            const Vec3 ball = pose->upper_ball_K - linkage->pivot_K();
            EXPECT_NEAR(n.dot(tip.cross(f.tip_on_rocker_K)) + n.dot(ball.cross(f.rod_on_rocker_K)),
                        0.0, 1e-7);
            const Vec3 slow =
                twins::slow_on_pivot_K(made.train, linkage->adjuster_in_mm(), s, 900.0);
            EXPECT_NEAR((slow - f.on_pivot_K).norm(), 0.0, 1e-5); // the bisection's 1e-10 rad
            ++checked;
        }
    }
    EXPECT_GT(checked, 500);
}

TEST(ShaftLoad, ByCrankIsTheSumOverOpenValvesThatSamplingFinds) {
    for (const char* name : demo_names) {
        Engine engine = demo_engine(name);
        give_springs(engine);
        const ShaftLoads loads(engine);
        const auto sampled = twins::sample_cycle(engine);
        ASSERT_EQ(loads.shafts().size(), engine.layout.banks.size());
        for (std::size_t shaft = 0; shaft < loads.shafts().size(); ++shaft) {
            const auto curve = loads.through_cycle(shaft, 3.7);
            ASSERT_TRUE(curve.ok());
            ASSERT_EQ(curve->size(), 195u); // 720 / 3.7 = 194.6
            double most = 0.0;
            for (const ShaftLoadPoint& point : *curve) {
                const auto sample =
                    static_cast<std::size_t>(std::lround(point.at.in_deg() / twins::sample_deg));
                Vec3 sum = Vec3::Zero();
                std::size_t open = 0;
                for (std::size_t at = 0; at < sampled.size(); ++at) {
                    const Train& train = engine.trains[at];
                    if (train.bank != loads.shafts()[shaft].bank || !sampled[at].open[sample]) {
                        continue;
                    }
                    ++open;
                    sum += twins::slow_on_pivot_K(train,
                                                  Linkage::close(train).linkage->adjuster_in_mm(),
                                                  sampled[at].lobe_lift_mm[sample],
                                                  test_spring_N(sampled[at].valve_lift_mm[sample]));
                }
                ASSERT_EQ(point.open, open) << name << " at " << point.at.in_deg();
                ASSERT_TRUE(point.load_N.has_value());
                EXPECT_NEAR(*point.load_N, sum.norm(), 1e-3) << name; // the twin's bisection
                most = std::max(most, *point.load_N);
            }
            // A spring of 1400 N at ratio 1.6 loads the shaft with some 2.5 times that: no zero
            // curve passes.
            EXPECT_GT(most, 2500.0);
        }
    }
}

TEST(ShaftLoad, JumpsFromNothingToTheSeatLoadsShareWhereAValveLeavesItsSeat) {
    Engine engine = demo_engine("flat-four");
    give_springs(engine);
    const ShaftLoads loads(engine);
    const ValvePosition valve{1, ValveKind::exhaust, 1};
    const auto arc = valve_above(engine, valve, 0.0);
    ASSERT_TRUE(arc.has_value());
    const auto force_at = [&](double on_deg) {
        for (const RockerLoad& rocker : *loads.rockers_at(arc->from + CrankAngle::deg(on_deg))) {
            if (rocker.position == valve) {
                return rocker.forces ? rocker.forces->spring_N : 0.0;
            }
        }
        return -1.0;
    };
    EXPECT_EQ(force_at(-0.01), 0.0);
    // A hundredth of a degree on, the valve has risen by less than a micron or two: 66 N/mm of it.
    EXPECT_NEAR(force_at(0.01), test_seat_N, 0.2);
    EXPECT_GE(force_at(0.01), test_seat_N);
}

TEST(ShaftLoad, WithoutTheSpringOfAnOpenValveTheLoadIsUnknownAndTheCountIsNot) {
    Engine engine = demo_engine("v8-port-tubes");
    give_springs(engine);
    const ValvePosition valve{3, ValveKind::intake, 1};
    engine.springs.erase(valve);
    const ShaftLoads loads(engine);
    const std::size_t shaft = engine.train(valve)->bank;
    const CrankAngle open = engine.full_lift_angle(valve);
    const auto load = loads.at(shaft, open);
    ASSERT_TRUE(load.ok());
    EXPECT_EQ(std::count(load->open.begin(), load->open.end(), valve), 1);
    EXPECT_FALSE(load->load_N().has_value());
    for (const RockerLoad& rocker : load->rockers) {
        EXPECT_EQ(rocker.forces.has_value(),
                  rocker.state == RockerState::open && rocker.position != valve);
    }
    // Shut, its spring doesn't matter; and the other bank's shaft never asks.
    EXPECT_TRUE(loads.at(shaft, engine.layout.firing_angle(3))->load_N().has_value());
    EXPECT_TRUE(loads.at(1 - shaft, open)->load_N().has_value());
    // One load is no spring to work with.
    give_springs(engine);
    engine.springs[valve].loads.resize(1);
    EXPECT_FALSE(ShaftLoads(engine).at(shaft, open)->load_N().has_value());
}

TEST(ShaftLoad, ATrainThatDoesNotCloseOrIsMissingLeavesTheLoadUnknown) {
    Engine engine = demo_engine("flat-four");
    give_springs(engine);
    const ValvePosition broken{1, ValveKind::intake, 1};
    for (Train& train : engine.trains) {
        if (train.position == broken) {
            train.rod.length_mm += 30.0;
        }
    }
    {
        const ShaftLoads loads(engine);
        const std::size_t shaft = engine.layout.cylinder(1).bank;
        for (const double crank : {0.0, 300.0}) {
            const auto load = loads.at(shaft, CrankAngle::deg(crank));
            EXPECT_EQ(load->unknown, std::vector<ValvePosition>{broken});
            EXPECT_FALSE(load->load_N().has_value());
        }
        EXPECT_TRUE(loads.at(1 - shaft, CrankAngle{})->load_N().has_value());
    }
    engine = demo_engine("flat-four");
    give_springs(engine);
    std::erase_if(engine.trains, [&](const Train& train) { return train.position == broken; });
    const ShaftLoads loads(engine);
    const std::size_t shaft = engine.layout.cylinder(1).bank;
    EXPECT_EQ(loads.shafts()[shaft].perhaps, std::vector<ValvePosition>{broken});
    // Its lobe tells when it may be open, and that it is shut on the heel.
    EXPECT_EQ(loads.at(shaft, engine.full_lift_angle(broken))->unknown.size(), 1u);
    EXPECT_FALSE(loads.at(shaft, engine.full_lift_angle(broken))->load_N().has_value());
    EXPECT_TRUE(loads.at(shaft, CrankAngle{})->unknown.empty());
}

TEST(ShaftLoad, ShaftsGoByNameAndStudsBelongToNone) {
    Engine engine = demo_engine("v8-port-tubes");
    give_springs(engine);
    for (Train& train : engine.trains) {
        if (train.bank == 0) {
            train.rocker.shaft = train.position.kind == ValveKind::intake ? "intake" : "exhaust";
        } else if (train.position.cylinder > 4) {
            train.rocker.mount = RockerMount::stud;
        }
    }
    const ShaftLoads loads(engine);
    ASSERT_EQ(loads.shafts().size(), 3u);
    EXPECT_EQ(loads.shafts()[0].name, "exhaust");
    EXPECT_EQ(loads.shafts()[1].name, "intake");
    EXPECT_EQ(loads.shafts()[2].name, "");
    EXPECT_EQ(loads.shafts()[2].bank, 1u);
    EXPECT_EQ(loads.shafts()[0].valves.size(), 4u);
    EXPECT_EQ(loads.shafts()[2].valves.size(), 4u);
    for (const ValvePosition& valve : loads.shafts()[1].valves) {
        EXPECT_EQ(valve.kind, ValveKind::intake);
    }
    for (const ValvePosition& valve : loads.shafts()[2].valves) {
        EXPECT_LE(valve.cylinder, 4);
    }
    // A stud's own load is told all the same: every valve there is stands in the list.
    const auto rockers = loads.rockers_at(engine.full_lift_angle({8, ValveKind::intake, 1}));
    ASSERT_TRUE(rockers.ok());
    EXPECT_EQ(rockers->size(), 16u);
    const auto stud = std::find_if(rockers->begin(), rockers->end(), [](const RockerLoad& rocker) {
        return rocker.position == ValvePosition{8, ValveKind::intake, 1};
    });
    ASSERT_TRUE(stud->forces.has_value());
    EXPECT_GT(stud->forces->on_pivot_K.norm(), 1000.0);
}

TEST(ShaftLoad, AnglesAndStepsThatAreNoNumbersAreRefused) {
    const Engine engine = demo_engine("flat-four");
    const ShaftLoads loads(engine);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(loads.at(0, CrankAngle::deg(nan)).error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(loads.rockers_at(CrankAngle::deg(nan)).error().code, ErrorCode::not_an_angle);
    for (const double bad : {nan, 0.0, -1.0, 91.0}) {
        EXPECT_EQ(loads.through_cycle(0, bad).error().code, ErrorCode::out_of_range);
    }
}

} // namespace
} // namespace rodway
