#include "core/barring/shaft_windows.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <tuple>

#include "core/barring/valve_arcs.h"
#include "tests/core/barring/plain_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_barring.h"

namespace rodway {
namespace {

/// Of a bank, by its definition: each cylinder's two dead centres, tried one by one.
double slow_from_tdc_deg(const EngineLayout& layout, std::size_t bank, double crank_deg) {
    double nearest = 360.0;
    for (const Cylinder& cylinder : layout.cylinders) {
        for (int turn = -6; cylinder.bank == bank && turn <= 6; ++turn) {
            nearest = std::min(nearest, std::abs(crank_deg - 360.0 * turn -
                                                 layout.firing_angle(cylinder.number).in_deg()));
        }
    }
    return nearest;
}

/// One shaft at every sample: who is open, the load, the pistons.
struct Sampled {
    std::vector<std::vector<ValvePosition>> open;
    std::vector<double> load_N;
    std::vector<double> from_tdc_deg;
    std::size_t fewest = 99;
};

Sampled sampled_shaft(const Engine& engine, const RockerShaft& shaft,
                      const std::vector<twins::SampledValve>& valves) {
    Sampled all;
    for (int sample = 0; sample < twins::samples_in_cycle; ++sample) {
        const auto at_sample = static_cast<std::size_t>(sample);
        std::vector<ValvePosition> open;
        Vec3 sum = Vec3::Zero();
        for (std::size_t at = 0; at < valves.size(); ++at) {
            const Train& train = engine.trains[at];
            const bool sits =
                std::count(shaft.valves.begin(), shaft.valves.end(), valves[at].position) == 1;
            if (sits && valves[at].open[at_sample]) {
                open.push_back(valves[at].position);
                sum +=
                    twins::slow_on_pivot_K(train, Linkage::close(train).linkage->adjuster_in_mm(),
                                           valves[at].lobe_lift_mm[at_sample],
                                           test_spring_N(valves[at].valve_lift_mm[at_sample]));
            }
        }
        all.fewest = std::min(all.fewest, open.size());
        all.open.push_back(open);
        all.load_N.push_back(sum.norm());
        all.from_tdc_deg.push_back(
            slow_from_tdc_deg(engine.layout, shaft.bank, sample * twins::sample_deg));
    }
    return all;
}

/// What makes one angle better than another: larger is better. Loads are rounded to 1 N, angles to
/// 0.1°, which is what a sample can tell.
std::tuple<double, double, double> merit(double from_tdc_deg, double load_N, double clear_deg) {
    return {std::round(std::min(from_tdc_deg, clear_deg) * 10.0), -std::round(load_N),
            std::round(from_tdc_deg * 10.0)};
}

void expect_windows(const Engine& engine, const ShaftWindows& answer, const Sampled& sampled,
                    const ShaftWindowRules& rules) {
    std::vector<int> covered(twins::samples_in_cycle, 0);
    for (const ShaftWindow& window : answer.windows) {
        EXPECT_EQ(window.open.size(), sampled.fewest);
        EXPECT_TRUE(window.may_be_open.empty());
        EXPECT_TRUE(window.arc.holds(window.best));
        double peak = 0.0;
        auto best = merit(-1.0, 1e9, rules.clear_of_tdc_deg);
        const double keep = std::min(rules.keep_from_ends_deg, window.arc.span_deg / 2.0);
        for (int sample = 0; sample < twins::samples_in_cycle; ++sample) {
            const auto at = static_cast<std::size_t>(sample);
            const double on =
                degrees_ahead(window.arc.from, CrankAngle::deg(sample * twins::sample_deg));
            if (on <= 1e-6 || on >= window.arc.span_deg - 1e-6) {
                continue;
            }
            ++covered[at];
            ASSERT_EQ(sampled.open[at], window.open) << "at " << sample * twins::sample_deg;
            peak = std::max(peak, sampled.load_N[at]);
            if (on >= keep && on <= window.arc.span_deg - keep) {
                best = std::max(best, merit(sampled.from_tdc_deg[at], sampled.load_N[at],
                                            rules.clear_of_tdc_deg));
            }
        }
        ASSERT_TRUE(window.peak_load_N && window.load_at_best_N && window.nearest);
        // Within a sample's step a spring's share of the shaft's load moves by some 15 N.
        EXPECT_GE(*window.peak_load_N, peak - 1e-3);
        EXPECT_LE(*window.peak_load_N, peak + 20.0);
        EXPECT_NEAR(window.nearest->from_tdc_deg,
                    slow_from_tdc_deg(engine.layout, answer.shaft.bank, window.best.in_deg()),
                    1e-6);
        EXPECT_EQ(engine.layout.cylinder(window.nearest->cylinder).bank, answer.shaft.bank);
        EXPECT_EQ(window.pistons_clear,
                  window.nearest->from_tdc_deg >= rules.clear_of_tdc_deg - 1e-6);
        // No sample is better than the best, by more than a sample can tell: 0.1° of piston, and
        // the load that 0.1° may cost.
        const double best_clear = std::get<0>(best) / 10.0;
        EXPECT_GE(std::min(window.nearest->from_tdc_deg, rules.clear_of_tdc_deg), best_clear - 0.1);
        if (best_clear >= rules.clear_of_tdc_deg - 0.01) {
            EXPECT_LE(*window.load_at_best_N, -std::get<1>(best) + 2.0);
            if (window.open.empty()) {
                EXPECT_GE(window.nearest->from_tdc_deg, std::get<2>(best) / 10.0 - 0.1);
            }
        }
    }
    for (int sample = 0; sample < twins::samples_in_cycle; ++sample) {
        const auto at = static_cast<std::size_t>(sample);
        const bool fewest = sampled.open[at].size() == sampled.fewest;
        ASSERT_EQ(covered[at], fewest ? 1 : 0) << "at " << sample * twins::sample_deg;
    }
    // Best first: pistons, then load, then pistons farther.
    for (std::size_t at = 1; at < answer.windows.size(); ++at) {
        const ShaftWindow& better = answer.windows[at - 1];
        const ShaftWindow& worse = answer.windows[at];
        EXPECT_GE(better.pistons_clear, worse.pistons_clear);
        if (better.pistons_clear == worse.pistons_clear) {
            EXPECT_LE(*better.load_at_best_N, *worse.load_at_best_N + 10.0);
            if (std::abs(*better.load_at_best_N - *worse.load_at_best_N) < 1e-6) {
                EXPECT_GE(better.nearest->from_tdc_deg, worse.nearest->from_tdc_deg - 0.01);
            }
        }
    }
}

TEST(ShaftWindows, AreWhatSamplingEveryTenthOfADegreeFinds) {
    for (const char* name : demo_names) {
        Engine engine = demo_engine(name);
        give_springs(engine);
        const auto valves = twins::sample_cycle(engine);
        for (const ShaftWindowRules& rules :
             {ShaftWindowRules{}, ShaftWindowRules{10.0, 0.0}, ShaftWindowRules{60.0, 12.0}}) {
            const auto answers = shaft_windows(engine, rules);
            ASSERT_TRUE(answers.ok());
            ASSERT_EQ(answers->size(), engine.layout.banks.size());
            for (const ShaftWindows& answer : *answers) {
                SCOPED_TRACE(std::string(name) + " bank " + std::to_string(answer.shaft.bank));
                ASSERT_FALSE(answer.windows.empty());
                expect_windows(engine, answer, sampled_shaft(engine, answer.shaft, valves), rules);
            }
        }
    }
}

TEST(ShaftWindows, HoldForEnginesThatFireUnevenly) {
    constexpr std::uint64_t seed = 1234;
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    std::vector<std::size_t> fewest;
    for (int time = 0; time < 6; ++time) {
        SCOPED_TRACE(time);
        const Lobe lobe = smooth_lobe(290.0);
        const int cylinders = 1 + time;
        std::vector<double> firing;
        for (int cylinder = 0; cylinder < cylinders; ++cylinder) {
            firing.push_back(std::uniform_real_distribution<double>(0.0, 720.0)(random));
        }
        Engine engine = plain_engine(firing, {lobe, 14.2, 0.4, 108.0}, {lobe, 14.2, 0.4, 113.0});
        give_trains(engine);
        give_springs(engine);
        const auto answers = shaft_windows(engine);
        ASSERT_TRUE(answers.ok());
        ASSERT_EQ(answers->size(), 1u);
        const Sampled sampled =
            sampled_shaft(engine, answers->front().shaft, twins::sample_cycle(engine));
        expect_windows(engine, answers->front(), sampled, {});
        fewest.push_back(sampled.fewest);
    }
    // Windows with none open and windows with some must both have come up.
    EXPECT_TRUE(std::count(fewest.begin(), fewest.end(), 0u) > 0);
    EXPECT_TRUE(*std::max_element(fewest.begin(), fewest.end()) > 0);
}

TEST(ShaftWindows, AnInlineEnginesOneShaftAlwaysCarriesSomeSprings) {
    Engine six = demo_engine("inline-six");
    const auto answers = shaft_windows(six);
    ASSERT_TRUE(answers.ok());
    ASSERT_EQ(answers->size(), 1u);
    for (const ShaftWindow& window : answers->front().windows) {
        EXPECT_GE(window.open.size(), 1u);
        // No springs in the set-up: loads unknown, never 0; windows all the same.
        EXPECT_FALSE(window.load_at_best_N.has_value());
        EXPECT_FALSE(window.peak_load_N.has_value());
        // Pistons of a six pair up 120 apart: 60 is as far as they get.
        EXPECT_LE(window.nearest->from_tdc_deg, 60.0 + 1e-6);
    }
}

/// A vee twin's two cylinders on one shaft, 60 apart: for a part of the cycle all its valves rest.
Engine close_pair() {
    const Lobe lobe = smooth_lobe(280.0);
    const CamLobes lobes{lobe, 14.2, 0.4, 105.0};
    Engine engine = plain_engine({0.0, 60.0}, lobes, lobes);
    give_trains(engine);
    return engine;
}

TEST(ShaftWindows, WhereNoValveIsOpenTheLoadIsNoneEvenWithoutSprings) {
    const auto answers = shaft_windows(close_pair());
    ASSERT_TRUE(answers.ok());
    ASSERT_EQ(answers->size(), 1u);
    const ShaftWindow& best = answers->front().windows.front();
    EXPECT_TRUE(best.open.empty());
    EXPECT_EQ(best.load_at_best_N, 0.0);
    EXPECT_EQ(best.peak_load_N, 0.0);
    EXPECT_TRUE(best.pistons_clear);
}

TEST(ShaftWindows, ABanksPistonsNearTopDeadCentreCostAWindowItsPlace) {
    // One cylinder: heel from the intake's closing to the exhaust's opening, top dead centre firing
    // in its middle. The best angle isn't that middle but the end farther from it.
    const Lobe lobe = smooth_lobe(280.0);
    Engine engine = plain_engine({0.0}, {lobe, 14.2, 0.4, 100.0}, {lobe, 14.2, 0.4, 110.0});
    give_trains(engine);
    const auto answers = shaft_windows(engine);
    ASSERT_TRUE(answers.ok());
    const ShaftWindow& window = answers->front().windows.front();
    ASSERT_TRUE(window.open.empty());
    EXPECT_TRUE(window.arc.holds(CrankAngle::deg(0.0)));
    // The intake's full lift is 260 before firing, the exhaust's 250 after it: of equal lobes, so
    // the window begins 10 farther from firing than it ends.
    EXPECT_NEAR(degrees_ahead(window.arc.from, window.best), 5.0, 1e-6);
    EXPECT_NEAR(window.nearest->from_tdc_deg, degrees_ahead(window.best, CrankAngle{}), 1e-6);
    EXPECT_EQ(window.nearest->cylinder, 1);
}

TEST(ShaftWindows, CountWhatMayBeOpenAsOpen) {
    Engine engine = close_pair();
    give_springs(engine);
    const ValvePosition missing{2, ValveKind::intake, 1};
    const ValvePosition broken{1, ValveKind::exhaust, 1};
    const CrankAngle with_train = shaft_windows(engine)->front().windows.front().arc.from;
    std::erase_if(engine.trains, [&](const Train& train) { return train.position == missing; });
    const auto without = shaft_windows(engine);
    ASSERT_TRUE(without.ok());
    const CrankArc lifts = lobe_above(engine, missing, heel_mm);
    ASSERT_EQ(without->front().windows.size(), 1u);
    const ShaftWindow& window = without->front().windows.front();
    EXPECT_TRUE(window.open.empty() && window.may_be_open.empty());
    EXPECT_EQ(window.load_at_best_N, 0.0);
    // 2I closes last; nothing tells its lash now, so the window waits for its lobe's heel.
    EXPECT_NEAR(window.arc.from.in_deg(), lifts.to().in_deg(), 1e-6);
    EXPECT_GT(degrees_ahead(with_train, window.arc.from), 2.0);
    EXPECT_LT(degrees_ahead(with_train, window.arc.from), 60.0);
    // A train that doesn't close may hold its valve open all the way round.
    for (Train& train : engine.trains) {
        if (train.position == broken) {
            train.rod.length_mm += 30.0;
        }
    }
    const auto with_broken = shaft_windows(engine);
    ASSERT_TRUE(with_broken.ok());
    for (const ShaftWindow& unsure : with_broken->front().windows) {
        EXPECT_TRUE(unsure.open.empty());
        EXPECT_EQ(unsure.may_be_open, std::vector<ValvePosition>{broken});
        EXPECT_FALSE(unsure.load_at_best_N.has_value());
        EXPECT_TRUE(unsure.nearest.has_value());
    }
}

TEST(ShaftWindows, StudsHaveNoneAndAShaftWhoseValvesNeverOpenHasTheWholeCycle) {
    Engine engine = demo_engine("flat-four");
    for (Train& train : engine.trains) {
        train.rocker.mount = RockerMount::ball_pivot;
    }
    const auto none = shaft_windows(engine);
    ASSERT_TRUE(none.ok());
    EXPECT_TRUE(none->empty());
    const CamLobes lobes{smooth_lobe(280.0), 14.2, 20.0, 110.0}; // lash takes up all the lift
    Engine shut = plain_engine({0.0, 360.0}, lobes, lobes);
    give_trains(shut);
    const auto whole = shaft_windows(shut);
    ASSERT_TRUE(whole.ok());
    ASSERT_EQ(whole->front().windows.size(), 1u);
    EXPECT_EQ(whole->front().windows.front().arc.span_deg, 720.0);
    EXPECT_NEAR(whole->front().windows.front().nearest->from_tdc_deg, 180.0, 1e-6);
}

TEST(ShaftWindows, RefuseRulesThatAreNoNumbers) {
    const Engine engine = demo_engine("flat-four");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(shaft_windows(engine, {nan, 5.0}).error().field, "clear_of_tdc");
    EXPECT_EQ(shaft_windows(engine, {30.0, -1.0}).error().field, "keep_from_ends");
    EXPECT_EQ(shaft_windows(engine, {91.0, 5.0}).error().limits->high, 90.0);
    EXPECT_FALSE(nearest_piston(engine.layout, 0, CrankAngle::deg(nan)).has_value());
    EXPECT_FALSE(nearest_piston(engine.layout, 7, CrankAngle{}).has_value());
}

} // namespace
} // namespace rodway
