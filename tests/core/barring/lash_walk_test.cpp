#include "core/barring/lash_walk.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>
#include <set>

#include "tests/core/barring/plain_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_barring.h"

namespace rodway {
namespace {

double lift_at(const twins::SampledValve& valve, double crank_deg) {
    const double cycle = CrankAngle::deg(crank_deg).in_cycle().in_deg();
    const auto sample = static_cast<std::size_t>(std::lround(cycle / twins::sample_deg));
    return valve.valve_lift_mm[sample % twins::samples_in_cycle];
}

const twins::SampledValve& sampled_of(const std::vector<twins::SampledValve>& all,
                                      const ValvePosition& valve) {
    return *std::find_if(all.begin(), all.end(),
                         [&](const auto& sampled) { return sampled.position == valve; });
}

TEST(LashWalk, StandsWhereTheWatchedValveJustMovesAndTheOtherRests) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        const auto sampled = twins::sample_cycle(engine);
        const CrankAngle from = CrankAngle::deg(200.0);
        const auto walk = lash_walk(engine, from);
        ASSERT_TRUE(walk.ok() && walk->left_out.empty());
        ASSERT_EQ(walk->steps.size(), engine.trains.size());
        std::set<ValvePosition> set;
        double turned = 0.0;
        for (const LashStep& step : walk->steps) {
            turned += step.turn_deg;
            EXPECT_NEAR(degrees_ahead(from, step.at), turned, 1e-6);
            ASSERT_EQ(step.set.size(), 1u);
            set.insert(step.set[0]);
            EXPECT_EQ(step.set[0].cylinder, step.cylinder);
            EXPECT_EQ(step.seen.cylinder, step.cylinder);
            EXPECT_FALSE(step.seen_by_lobe);
            const bool opens = step.cue == LashCue::exhaust_begins_to_open;
            EXPECT_EQ(step.seen.kind, opens ? ValveKind::exhaust : ValveKind::intake);
            EXPECT_EQ(step.set[0].kind, opens ? ValveKind::intake : ValveKind::exhaust);
            // Watched: 0.254 mm off its seat here, opening or closing. A sample is 0.05 degrees
            // away at most, where a valve moves some 0.01 mm a degree.
            const auto& seen = sampled_of(sampled, step.seen);
            const double here = step.at.in_deg();
            EXPECT_NEAR(lift_at(seen, here), 0.254, 0.02) << name;
            EXPECT_EQ(lift_at(seen, here + 5.0) > lift_at(seen, here - 5.0), opens);
            // Set: on its heel for at least what the step says, and not for more.
            const auto lobe_mm = [&](double on_deg) {
                return engine.lobe_lift_mm(step.set[0], CrankAngle::deg(here + on_deg));
            };
            EXPECT_GT(step.heel_left_deg, 10.0);
            for (double on = -step.heel_left_deg + 0.1; on < step.heel_left_deg - 0.1; on += 1.0) {
                ASSERT_LE(lobe_mm(on), heel_mm);
            }
            EXPECT_GT(
                std::max(lobe_mm(step.heel_left_deg + 0.1), lobe_mm(-step.heel_left_deg - 0.1)),
                heel_mm);
        }
        EXPECT_EQ(set.size(), engine.trains.size()); // every valve once
        EXPECT_LE(turned, 720.0);
    }
}

TEST(LashWalk, IntakesAreSetInFiringOrder) {
    const auto walk = lash_walk(demo_engine("v8-port-tubes"), CrankAngle{});
    ASSERT_TRUE(walk.ok());
    std::vector<int> intakes;
    for (const LashStep& step : walk->steps) {
        if (step.cue == LashCue::exhaust_begins_to_open) {
            intakes.push_back(step.cylinder);
        }
    }
    // The set-up's order, begun where an exhaust first opens after 0: cylinder 2 fired last, at
    // 630, and its exhaust opens some 110 later.
    EXPECT_EQ(intakes, (std::vector<int>{2, 1, 8, 4, 3, 6, 5, 7}));
}

TEST(LashWalk, HoldsForEnginesThatFireUnevenly) {
    constexpr std::uint64_t seed = 4242;
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    const Lobe lobe = smooth_lobe(300.0);
    for (int time = 0; time < 20; ++time) {
        std::vector<double> firing{0.0};
        for (int cylinder = 1; cylinder < 4; ++cylinder) {
            firing.push_back(std::uniform_real_distribution<double>(0.0, 720.0)(random));
        }
        Engine engine = plain_engine(firing, {lobe, 14.2, 0.4, 108.0}, {lobe, 14.2, 0.4, 114.0});
        give_trains(engine);
        const auto walk = lash_walk(engine, CrankAngle::deg(31.0 * time));
        ASSERT_TRUE(walk.ok());
        ASSERT_EQ(walk->steps.size(), 8u);
        const auto cue_after = [&](int cylinder, LashCue cue) {
            const auto found = std::find_if(
                walk->steps.begin(), walk->steps.end(),
                [&](const LashStep& step) { return step.cylinder == cylinder && step.cue == cue; });
            return degrees_ahead(engine.layout.firing_angle(cylinder), found->at);
        };
        for (int cylinder = 2; cylinder <= 4; ++cylinder) {
            for (const LashCue cue :
                 {LashCue::exhaust_begins_to_open, LashCue::intake_all_but_closed}) {
                // Every cylinder at the same place of its own cycle: same lobes, same trains.
                EXPECT_NEAR(cue_after(cylinder, cue), cue_after(1, cue), 1e-6);
            }
        }
        // Exhaust full lift 246 after firing, off the heel for 300: it opens after 96. Intake
        // closes before 360 + 108 + 150 = 618. Lash and 0.254 mm take some 25 off either.
        EXPECT_GT(cue_after(1, LashCue::exhaust_begins_to_open), 96.0);
        EXPECT_LT(cue_after(1, LashCue::exhaust_begins_to_open), 130.0);
        EXPECT_LT(cue_after(1, LashCue::intake_all_but_closed), 618.0);
        EXPECT_GT(cue_after(1, LashCue::intake_all_but_closed), 580.0);
    }
}

TEST(LashWalk, OfTwoExhaustsTheFirstToOpenIsWatchedAndBothIntakesAreSet) {
    const Lobe lobe = smooth_lobe(300.0);
    const CamLobes lobes{lobe, 14.2, 0.4, 110.0};
    Engine engine = plain_engine({0.0}, lobes, lobes);
    give_trains(engine);
    const ValvePosition exhaust2{1, ValveKind::exhaust, 2};
    const ValvePosition intake2{1, ValveKind::intake, 2};
    engine.trains.push_back(upright_train(intake2, 0.4));
    engine.trains.push_back(upright_train(exhaust2, 0.4));
    engine.own_lobes.emplace(exhaust2, CamLobes{lobe, 14.2, 0.4, 116.0}); // 6 earlier
    engine.own_lobes.emplace(intake2, CamLobes{lobe, 14.2, 0.4, 117.0});  // 7 later
    const auto walk = lash_walk(engine, CrankAngle{});
    ASSERT_TRUE(walk.ok());
    ASSERT_EQ(walk->steps.size(), 2u);
    const LashStep& first = walk->steps[0];
    EXPECT_EQ(first.cue, LashCue::exhaust_begins_to_open);
    EXPECT_EQ(first.seen, exhaust2);
    EXPECT_EQ(first.set, (std::vector<ValvePosition>{{1, ValveKind::intake, 1}, intake2}));
    EXPECT_EQ(walk->steps[1].seen, intake2);
    EXPECT_EQ(walk->steps[1].set,
              (std::vector<ValvePosition>{{1, ValveKind::exhaust, 1}, exhaust2}));
}

TEST(LashWalk, LeavesOutWithTheReasonWhatCannotBeSet) {
    const auto reason_of = [](const LashWalk& walk, const ValvePosition& valve) {
        const auto found =
            std::find_if(walk.left_out.begin(), walk.left_out.end(),
                         [&](const LashLeftOut& left) { return left.valve == valve; });
        return found == walk.left_out.end() ? std::optional<LashRefusal>() : found->reason;
    };
    const ValvePosition intake{2, ValveKind::intake, 1};
    const ValvePosition exhaust{2, ValveKind::exhaust, 1};
    const auto card = Lobe::from_card(9.0, {{0.15, 280.0}, {1.27, 230.0}});
    ASSERT_TRUE(card.ok());

    // An estimated lobe gives neither a heel to set on nor a cue to set by.
    Engine engine = demo_engine("flat-four");
    engine.own_lobes.emplace(exhaust, CamLobes{*card, 14.2, 0.4, 110.0});
    auto walk = lash_walk(engine, CrankAngle{});
    ASSERT_TRUE(walk.ok());
    EXPECT_EQ(walk->steps.size(), 6u);
    EXPECT_EQ(reason_of(*walk, exhaust), LashRefusal::lobe_estimated);
    EXPECT_EQ(reason_of(*walk, intake), LashRefusal::lobe_estimated);

    // An intake lobe placed 300 degrees late is off its heel when the exhaust begins to open.
    engine = demo_engine("flat-four");
    CamLobes late = engine.intake;
    late.centreline_crank_deg += 300.0;
    engine.own_lobes.emplace(intake, late);
    walk = lash_walk(engine, CrankAngle{});
    ASSERT_TRUE(walk.ok());
    EXPECT_EQ(reason_of(*walk, intake), LashRefusal::not_on_heel);

    // Lash that takes up all the lift: nobody will see that valve move.
    engine = demo_engine("flat-four");
    for (Train& train : engine.trains) {
        if (train.position == exhaust) {
            train.valve.lash_mm = 30.0;
        }
    }
    walk = lash_walk(engine, CrankAngle{});
    ASSERT_TRUE(walk.ok());
    EXPECT_EQ(reason_of(*walk, intake), LashRefusal::cue_not_seen);
    EXPECT_EQ(reason_of(*walk, exhaust), std::nullopt);
}

TEST(LashWalk, WithoutATrainTheLobeStandsForTheWatchedValveAndThatIsSaid) {
    Engine engine = demo_engine("flat-four");
    engine.trains.erase(engine.trains.begin() + 1); // 1E
    const auto whole = lash_walk(demo_engine("flat-four"), CrankAngle{});
    const auto walk = lash_walk(engine, CrankAngle{});
    ASSERT_TRUE(whole.ok() && walk.ok());
    ASSERT_EQ(walk->steps.size(), whole->steps.size());
    int by_lobe = 0;
    for (const LashStep& step : walk->steps) {
        if (step.seen_by_lobe) {
            ++by_lobe;
            EXPECT_EQ(position_name(step.seen), "1E");
            EXPECT_NEAR(engine.lobe_lift_mm(step.seen, step.at), 0.254, 1e-9);
        }
    }
    EXPECT_EQ(by_lobe, 1);
}

TEST(LashWalk, RefusesWhatIsNoNumberOrTooMuch) {
    const Engine engine = demo_engine("flat-four");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(lash_walk(engine, CrankAngle::deg(nan)).error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(lash_walk(engine, CrankAngle{}, {10.0, nan}).error().field, "seen_lift");
    EXPECT_EQ(lash_walk(engine, CrankAngle{}, {10.0, 2.1}).error().limits->high, 2.0);
    EXPECT_EQ(lash_walk(engine, CrankAngle{}, {nan, 0.1}).error().field, "heel_margin");
}

} // namespace
} // namespace rodway
