#include "core/clearance/build_spread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <thread>

#include "core/clearance/clearance_place.h"
#include "core/clearance/survey.h"
#include "core/engine/set_up.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

Engine with_inputs(const std::vector<std::pair<ParameterKind, double>>& inputs) {
    Engine engine = demo_engine("v8-port-tubes");
    engine.doubt = {};
    for (const auto& [kind, size] : inputs) {
        engine.doubt.inputs[kind] = {size, DoubtSource::measured};
    }
    return engine;
}

const ValveSpread& of(const BuildSpread& spread, const std::string& valve) {
    for (const ValveSpread& each : spread.valves) {
        if (position_name(each.valve) == valve) {
            return each;
        }
    }
    throw std::runtime_error(valve);
}

/// Whether another place of the same rod may be the nearest in one of the builds.
bool switches_place(const Engine& engine, const ValveClearance& line) {
    const Train& train = *engine.train(line.position);
    const auto closed = train_surroundings(engine, train);
    return places_of_minimum(engine, train, *closed->surroundings,
                             certified_minima(*closed->surroundings), 4.0 * *line.doubt_mm)
               .size() > 1;
}

// Where the clearance follows its inputs evenly, 19 builds in 20 lie within twice the combined
// uncertainty that the doubt works out without drawing (1.96 of it; 1,000 builds know their
// quantiles to some 5 %).
TEST(BuildSpread, AgreesWithTheDoubtWhereClearanceFollowsItsInputsEvenly) {
    const Engine engine = with_inputs({{ParameterKind::passage_outboard, 0.02},
                                       {ParameterKind::lifter_outboard, 0.03},
                                       {ParameterKind::rod_diameter, 0.01}});
    const auto lines = survey(engine);
    const auto spread = build_spread(engine, {1000, 7});
    ASSERT_TRUE(spread.ok());
    EXPECT_EQ(spread->builds, 1000);
    ASSERT_EQ(spread->valves.size(), lines->size());
    int even = 0;
    for (std::size_t at = 0; at < lines->size(); ++at) {
        const ValveClearance& line = (*lines)[at];
        const ValveSpread& valve = spread->valves[at];
        EXPECT_EQ(valve.valve, line.position);
        if (switches_place(engine, line)) {
            continue;
        }
        ++even;
        const double half = (*valve.high_mm - *valve.low_mm) / 2.0;
        const std::string name = position_name(line.position);
        EXPECT_NEAR(half, 0.98 * *line.doubt_mm, 0.12 * *line.doubt_mm) << name;
        EXPECT_NEAR(*valve.middle_mm, line.found.minimum->clearance_mm, 0.15 * *line.doubt_mm)
            << name;
    }
    EXPECT_GE(even, 8);
}

// 3I stands at 0.0037 in under a limit of 0.010: with a doubt of about 0.003 nearly every build is
// under it, and as many as a normal distribution says.
TEST(BuildSpread, SharesUnderTheLimitAreThoseOfTheDistribution) {
    Engine engine = with_inputs({{ParameterKind::passage_outboard, 0.1}});
    const auto lines = survey(engine);
    double stands = 0.0;
    for (const ValveClearance& line : *lines) {
        if (position_name(line.position) == "3I") {
            stands = line.found.minimum->clearance_mm;
        }
    }
    // The limit moved to one standard uncertainty above: 84.1 % lie below it. The rate is 1.
    engine.rod_clearance_limit_mm = stands + 0.1;
    const auto spread = build_spread(engine, {2000, 3});
    EXPECT_NEAR(of(*spread, "3I").below_limit, 0.841, 0.03); // 3.5 deviations of a share of 2,000
    EXPECT_EQ(of(*spread, "2I").below_limit, 0.0);
    EXPECT_GE(spread->any_below_limit, of(*spread, "3I").below_limit);
}

TEST(BuildSpread, OneSeedDrawsTheSameBuildsAndAnotherOthers) {
    const Engine engine = with_inputs({{ParameterKind::passage_outboard, 0.05}});
    const auto first = build_spread(engine, {60, 1});
    const auto again = build_spread(engine, {60, 1});
    const auto other = build_spread(engine, {60, 2});
    EXPECT_EQ(*of(*first, "3I").low_mm, *of(*again, "3I").low_mm);
    EXPECT_NE(*of(*first, "3I").low_mm, *of(*other, "3I").low_mm);
    EXPECT_NE(*of(*first, "3I").middle_mm, *of(*first, "5I").middle_mm);
}

// One gasket lies under all its tubes: what it gives one valve of the bank it takes from another,
// so some valve is short as often as the worst of them, never as often as all together.
TEST(BuildSpread, AGasketIsDrawnOnceForAllValvesOfABuild) {
    Engine engine = with_inputs({{ParameterKind::intake_gasket, 0.2}});
    engine.trains.erase(
        std::remove_if(engine.trains.begin(), engine.trains.end(),
                       [](const Train& train) { return position_name(train.position) != "3I"; }),
        engine.trains.end());
    engine.trains.push_back(engine.trains.front()); // the same rod twice
    engine.trains.back().position.cylinder = 1;
    engine.own_lobes.clear();
    const auto lines = survey(engine);
    engine.rod_clearance_limit_mm = (*lines)[0].found.minimum->clearance_mm;
    const auto spread = build_spread(engine, {400, 5});
    ASSERT_EQ(spread->valves.size(), 2U);
    EXPECT_NEAR(spread->valves[0].below_limit, 0.5, 0.1);
    EXPECT_EQ(spread->any_below_limit,
              std::max(spread->valves[0].below_limit, spread->valves[1].below_limit))
        << "two draws would fall short in three builds of four";
}

TEST(BuildSpread, IsStoppedWithWhatIsDoneAndCountsAsItGoes) {
    const Engine engine = with_inputs({{ParameterKind::passage_outboard, 0.05}});
    std::stop_source stop;
    std::atomic<int> done = 0;
    std::jthread stopper([&] {
        while (done.load() < 45) {
            std::this_thread::yield();
        }
        stop.request_stop();
    });
    const auto spread = build_spread(engine, {100000, 1}, stop.get_token(), &done);
    ASSERT_TRUE(spread.ok());
    EXPECT_GE(spread->builds, 45);
    EXPECT_LT(spread->builds, 100000);
    EXPECT_EQ(done.load(), spread->builds);
    EXPECT_EQ(spread->valves.size(), engine.trains.size());
}

TEST(BuildSpread, SaysWhatIsMissing) {
    const auto nothing = build_spread(demo_engine("flat-four"), {});
    ASSERT_FALSE(nothing.ok());
    EXPECT_EQ(nothing.error().field, "doubt/inputs");
    const Engine engine = with_inputs({{ParameterKind::passage_outboard, 0.05}});
    for (const int builds : {39, 100001, -1}) {
        const auto refused = build_spread(engine, {builds, 1});
        ASSERT_FALSE(refused.ok());
        EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
    }
}

} // namespace
} // namespace rodway
