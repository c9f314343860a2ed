#include "core/clearance/reading_fit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>
#include <limits>

#include "tests/core/clearance/fit_bench.h"

namespace rodway {
namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr int planted_cases = 40; // some ten times slower
#else
constexpr int planted_cases = 120;
#endif

const Gauges gauges;

const FittedPose& nearest_to(const ReadingFit& fit, const PassagePose& planted) {
    return *std::min_element(fit.poses.begin(), fit.poses.end(),
                             [&](const FittedPose& a, const FittedPose& b) {
                                 return distance_in_u(a, planted) < distance_in_u(b, planted);
                             });
}

/// One random bench: the kinds of reading that builders take, in turn.
std::vector<GapAtLift> readings_of_kind(int kind, const FitBench& bench, const RodInTube& rod,
                                        std::mt19937_64& random) {
    std::normal_distribution<double> normal;
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const auto off = [&] { return gauges.u_mm * normal(random); };
    std::vector<GapAtLift> readings;
    const auto everywhere = [&](auto&& take) {
        for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
            for (const double lift : {0.0, rod.full_lift_mm}) {
                take(lift, end);
            }
        }
    };
    switch (kind) {
        case 0: // coarse gauges, any clock direction, any lift
            for (int each = 0; each < 12; ++each) {
                readings.push_back(bench.felt(between(0.0, rod.full_lift_mm),
                                              each % 2 == 0 ? BoreEnd::top : BoreEnd::bottom,
                                              between(0.0, 12.0), off(), 5.0 * thou));
            }
            break;
        case 1: // tightest places, and one clock direction at each mouth to say which side
            everywhere([&](double lift, BoreEnd end) {
                readings.push_back(bench.felt(lift, end, {}, off()));
            });
            for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
                readings.push_back(bench.felt(0.0, end, 12.0, off()));
                readings.push_back(bench.felt(0.0, end, 3.0, off()));
            }
            break;
        case 2: // one gauge tried at each place: it goes, or it doesn't
            everywhere([&](double lift, BoreEnd end) {
                for (const double hours : {1.0, 3.0, 5.0, 7.0, 9.0, 11.0}) {
                    const double gap = std::max(0.0, bench.gap(lift, end, hours) + off());
                    const double gauge = std::max(0.05, gap + between(-0.3, 0.3));
                    GapAtLift tried{{}, lift, end, hours, {}, {}};
                    (gap >= gauge ? tried.low_mm : tried.high_mm) = gauge;
                    readings.push_back(tried);
                }
            });
            break;
        default: // plain values to 0.001 in; tape that survived, all round
            everywhere([&](double lift, BoreEnd end) {
                for (const double hours : {2.0, 6.0, 10.0}) {
                    const double gap = std::max(0.0, bench.gap(lift, end, hours) + off());
                    const double value = std::round(gap / thou) * thou;
                    readings.push_back({{},
                                        lift,
                                        end,
                                        hours,
                                        std::max(0.0, value - thou / 2.0),
                                        value + thou / 2.0});
                }
                const double tape = 0.15;
                if (bench.gap(lift, end, {}) > tape) {
                    readings.push_back({{}, lift, end, {}, tape, {}});
                }
            });
            break;
    }
    give_names(readings);
    return readings;
}

struct Coverage {
    int cases = 0;
    int unknowns_in = 0;
    int all_in = 0;
    int minima_in = 0;
    int several = 0;
    int lost = 0;
    double narrowing = 0.0;     ///< Σ of posterior sd / stated sd, over the four
    double error_squares = 0.0; ///< in stated sd
};

// Planted poses; four clock directions alone, in thousands of them, are
// fitted_region_test.cpp's matter. At least 90 % of them must lie in what is called 95 %: the gaps'
// bending and the poses drawn again because the rod touched are what may cost the rest. And the fit
// must have learnt: a program that gives back what was stated covers, too.
TEST(ReadingFit, FindsPlantedPosesWithinTheirStatedUncertainty) {
    const std::uint64_t seed = 20260611;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const StatedPlace stated{0.5, 0.008};
    std::array<Coverage, 4> kinds;
    for (int made = 0, used = 0; used < planted_cases; ++made) {
        ASSERT_LT(made, 4000);
        const auto rod = closed(twins::random_train(random));
        const PassagePose planted =
            as_pose(PoseVector(normal(random), normal(random), normal(random), normal(random))
                        .cwiseProduct(as_vector(stated)));
        if (!rod || !certified_minimum(*rod).minimum) {
            continue;
        }
        const FitBench bench(*rod, planted);
        const auto true_minimum = bench.minimum();
        if (!true_minimum || *true_minimum < 0.0) {
            continue;
        }
        Coverage& coverage = kinds[static_cast<std::size_t>(used % 4)];
        const auto readings = readings_of_kind(used % 4, bench, *rod, random);
        ++used;
        ++coverage.cases;
        const ReadingFit fit = fit_readings(*rod, stated, gauges, readings);
        if (fit.poses.empty()) {
            ++coverage.lost;
            continue;
        }
        coverage.several += fit.poses.size() > 1;
        const FittedPose& fitted = nearest_to(fit, planted);
        const PoseVector off = as_vector(fitted.pose) - as_vector(planted);
        for (int unknown = 0; unknown < 4; ++unknown) {
            const double sd = std::sqrt(fitted.covariance(unknown, unknown));
            coverage.unknowns_in += std::abs(off[unknown]) <= 1.96 * sd;
            coverage.narrowing += sd / as_vector(stated)[unknown] / 4.0;
            coverage.error_squares += std::pow(off[unknown] / as_vector(stated)[unknown], 2) / 4.0;
        }
        // 95 % of chi-squared with 4 degrees of freedom: 9.488 (NIST/SEMATECH e-Handbook,
        // 1.3.6.7.4).
        coverage.all_in += std::pow(distance_in_u(fitted, planted), 2) <= 9.488;
        ASSERT_TRUE(fitted.minimum.found.minimum.has_value());
        ASSERT_TRUE(fitted.minimum.doubt_mm.has_value());
        coverage.minima_in += std::abs(fitted.minimum.found.minimum->clearance_mm -
                                       *true_minimum) <= *fitted.minimum.doubt_mm;
    }
    Coverage all;
    for (std::size_t kind = 0; kind < kinds.size(); ++kind) {
        const Coverage& each = kinds[kind];
        std::cout << "kind " << kind << ": " << each.cases << " cases, " << each.lost << " lost, "
                  << each.several << " with several poses, unknowns in "
                  << 25.0 * each.unknowns_in / each.cases << " %, all four "
                  << 100.0 * each.all_in / each.cases << " %, minimum "
                  << 100.0 * each.minima_in / each.cases << " %, sd left "
                  << each.narrowing / each.cases << ", error "
                  << std::sqrt(each.error_squares / each.cases) << " of what was stated\n";
        EXPECT_EQ(each.lost, 0) << kind;
        EXPECT_LT(each.narrowing / each.cases, 0.45) << kind;
        EXPECT_LT(std::sqrt(each.error_squares / each.cases), 0.5) << kind;
        all.cases += each.cases;
        all.unknowns_in += each.unknowns_in;
        all.all_in += each.all_in;
        all.minima_in += each.minima_in;
    }
    EXPECT_GE(all.unknowns_in, 0.9 * 4 * all.cases);
    EXPECT_GE(all.all_in, 0.9 * all.cases);
    EXPECT_GE(all.minima_in, 0.9 * all.cases);
}

// Gaps at the tightest places on the heel and at full lift, without a direction: seen from the tube
// the rod stands in two places at each mouth, and a mouth on the one side of the line through them
// has the same gaps as one on the other.
TEST(ReadingFit, GapsWithoutADirectionLeaveTheMirrorAndOneReadingDecides) {
    for (std::size_t train : {0u, 3u}) {
        const RodInTube rod = demo_rod("v8-port-tubes", train);
        const StatedPlace stated{0.7, 0.004};
        const PassagePose planted{0.75, 0.1, 0.001, 0.0};
        const FitBench bench(rod, planted);
        std::vector<GapAtLift> readings;
        for (const double lift : {0.0, rod.full_lift_mm}) {
            for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
                readings.push_back(bench.felt(lift, end, {}));
            }
        }
        give_names(readings);
        const ReadingFit fit = fit_readings(rod, stated, gauges, readings);
        ASSERT_EQ(fit.outcome, FitOutcome::several_fit);
        ASSERT_GE(fit.poses.size(), 2u);
        EXPECT_LT(distance_in_u(nearest_to(fit, planted), planted), 3.1);
        bool mirrored = false;
        for (const FittedPose& pose : fit.poses) {
            EXPECT_LT(pose.reading_misfit, 9.0);
            // The swing is across the engine (3 to 9), so the mirror is on the other side of 12.
            mirrored = mirrored || pose.pose.towards_12_mm < planted.towards_12_mm - 0.5;
        }
        EXPECT_TRUE(mirrored);
        EXPECT_FALSE(fit.told_apart_by_readings);
        ASSERT_TRUE(fit.deciding.has_value());
        EXPECT_TRUE(fit.deciding->decides);
        EXPECT_GE(fit.deciding->apart_u, 4.0);
        ASSERT_EQ(fit.deciding->expected_mm.size(), fit.poses.size());
        EXPECT_FALSE(fit.helpful.has_value());

        // Take that reading, and one pose is left.
        const GaugePlace& at = fit.deciding->at;
        readings.push_back(bench.felt(at.place == TurnPlace::on_heel ? 0.0 : rod.full_lift_mm,
                                      at.end, at.clock_hours));
        give_names(readings);
        const ReadingFit decided = fit_readings(rod, stated, gauges, readings);
        EXPECT_EQ(decided.outcome, FitOutcome::fitted);
        ASSERT_EQ(decided.poses.size(), 1u);
        EXPECT_TRUE(decided.told_apart_by_readings);
        EXPECT_FALSE(decided.deciding.has_value());
        EXPECT_LT(distance_in_u(decided.poses[0], planted), 3.1); // 95 % of four unknowns
    }
}

// The same gaps to the front and to the rear say how far the rod is off to the side, not which way.
// By hand: with the rod parallel to its tube, c to the side, the gap fore and aft is
// (R² - ρ² - c²)/(R + ρ).
TEST(ReadingFit, TheSameGapFrontAndRearLeavesBothSides) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const FitBench as_stated(rod, {});
    std::vector<GapAtLift> readings;
    for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
        for (const double hours : {12.0, 6.0}) {
            readings.push_back({{}, 0.0, end, hours, {}, {}});
        }
    }
    give_names(readings);
    const double R = rod.tube.bore_radius_mm;
    const double rho = rod.rod_radius_mm;
    const double c = 1.5;
    const double gap = (R * R - rho * rho - c * c) / (R + rho);
    for (GapAtLift& reading : readings) {
        reading.low_mm = gap - 0.01;
        reading.high_mm = gap + 0.01;
    }
    const ReadingFit fit = fit_readings(rod, {1.0, 0.01}, gauges, readings);
    EXPECT_EQ(fit.outcome, FitOutcome::several_fit);
    // Either side at either end: four, in all combinations.
    ASSERT_EQ(fit.poses.size(), 4u);
    for (const FittedPose& fitted : fit.poses) {
        const Bore tube = at_pose(rod.tube, fitted.pose);
        for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
            const Vec3 at = *mouth_crossing_K(tube, rod_at(rod, 0.0), end);
            // The gaps are known to 0.01 and the gauge's 0.0127, and c goes with the gap as
            // (R+ρ)/2c, some 4 times that.
            EXPECT_NEAR(std::abs(at.dot(clock_direction_K(tube, 3.0))), c, 0.1);
            EXPECT_NEAR(at.dot(clock_direction_K(tube, 12.0)), 0.0, 0.05);
        }
    }
    ASSERT_TRUE(fit.deciding.has_value());
    // A reading at one end tells only that end's side: it can't decide all four.
    EXPECT_FALSE(fit.deciding->decides);
}

// A program that ignores the clock can't tell these two apart.
TEST(ReadingFit, TheClockSaysWhichSide) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    for (const double side : {1.0, -1.0}) {
        const PassagePose planted{0.3 * side, 0.8 * side, 0.004 * side, 0.0};
        const ReadingFit fit =
            fit_readings(rod, {0.7, 0.006}, gauges, all_round(FitBench(rod, planted), rod));
        ASSERT_EQ(fit.outcome, FitOutcome::fitted);
        EXPECT_NEAR(fit.poses[0].pose.towards_3_mm, 0.8 * side, 0.03); // gauges' step
        EXPECT_NEAR(fit.poses[0].pose.towards_12_mm, 0.3 * side, 0.03);
        EXPECT_NEAR(fit.poses[0].pose.lean_12_rad, 0.004 * side, 0.001);
        // Gauges without error: the mean of the poses that fit has every gap inside, but for what
        // the gauges' own uncertainty leaves open.
        EXPECT_LT(fit.poses[0].reading_misfit, 1.0);
        for (const GapAtPose& gap : fit.poses[0].gaps) {
            EXPECT_LT(std::abs(gap.outside_mm), gauges.u_mm / 2.0) << gap.name;
        }
    }
}

TEST(ReadingFit, TouchHoldsTheWallToTheRod) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    // The tube moved towards 3 o'clock until the rod touches it at the top on the heel: by halving.
    double low = 0.0;
    double high = 6.0;
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (low + high) / 2.0;
        (FitBench(rod, {0.0, middle, 0.0, 0.01}).gap(0.0, BoreEnd::top, {}) > 0.0 ? low : high) =
            middle;
    }
    const PassagePose planted{0.0, low, 0.0, 0.01};
    const FitBench bench(rod, planted);
    std::vector<GapAtLift> readings = all_round(bench, rod);
    readings.erase(readings.begin(), readings.begin() + 4); // the top on the heel
    readings.push_back({"touch", 0.0, BoreEnd::top, {}, 0.0, 0.0});
    const ReadingFit fit = fit_readings(rod, {1.5, 0.01}, gauges, readings);
    ASSERT_EQ(fit.outcome, FitOutcome::fitted);
    EXPECT_NEAR(fit.poses[0].pose.towards_3_mm, low, 0.03);
    EXPECT_NEAR(fit.poses[0].gaps.back().gap_mm, 0.0, 2.0 * gauges.u_mm);
    EXPECT_NEAR(fit.poses[0].minimum.found.on_heel->clearance_mm, 0.0, 3.0 * gauges.u_mm);
}

TEST(ReadingFit, WithoutReadingsWhatWasStatedStands) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const StatedPlace stated{0.3, 0.004};
    const ReadingFit fit = fit_readings(rod, stated, gauges, std::vector<GapAtLift>{});
    EXPECT_EQ(fit.outcome, FitOutcome::no_readings);
    ASSERT_EQ(fit.poses.size(), 1u);
    EXPECT_EQ(as_vector(fit.poses[0].pose), PoseVector::Zero());
    const PoseVector u = as_vector(stated);
    EXPECT_LT((fit.poses[0].covariance - PoseMatrix(u.cwiseProduct(u).asDiagonal())).norm(), 1e-15);
    EXPECT_EQ(fit.poses[0].weak.size(), 4u);
    EXPECT_EQ(fit.poses[0].minimum.found.minimum->clearance_mm,
              certified_minimum(rod).minimum->clearance_mm);
    ASSERT_TRUE(fit.poses[0].minimum.doubt_mm.has_value());
    EXPECT_GT(*fit.poses[0].minimum.doubt_mm, 0.3);
    ASSERT_TRUE(fit.helpful.has_value()); // says where to begin
    EXPECT_LT(fit.helpful->doubt_after_mm, *fit.poses[0].minimum.doubt_mm);
}

TEST(ReadingFit, OneReadingNarrowsOneDirectionAndSaysWhatIsStillWeak) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const PassagePose planted{0.6, 0.0, 0.0, 0.0};
    const FitBench bench(rod, planted);
    std::vector<GapAtLift> readings{bench.felt(0.0, BoreEnd::top, 12.0)};
    give_names(readings);
    const ReadingFit fit = fit_readings(rod, {0.5, 0.004}, gauges, readings);
    ASSERT_EQ(fit.outcome, FitOutcome::fitted);
    ASSERT_EQ(fit.poses.size(), 1u);
    EXPECT_EQ(fit.poses[0].weak.size(), 3u);
    for (const WeakMovement& weak : fit.poses[0].weak) {
        EXPECT_GT(weak.left, 0.5);
        EXPECT_LE(weak.left, 1.0);
        // What was read is not among them: the top mouth to the front or to the rear.
        EXPECT_LT(std::abs(weak.top_mm[0]), 0.1);
    }
    EXPECT_TRUE(fit.poses[0].covariance.allFinite());
    ASSERT_TRUE(fit.helpful.has_value());
    EXPECT_LT(fit.helpful->doubt_after_mm, *fit.poses[0].minimum.doubt_mm);

    // At the tightest place, without a direction, the tube may stand on any side of the rod: either
    // a line of poses, or several, but none is claimed for certain.
    const ReadingFit round =
        fit_readings(rod, {1.0, 0.001}, gauges, {bench.felt(0.0, BoreEnd::top, {})});
    ASSERT_FALSE(round.poses.empty());
    EXPECT_TRUE(round.poses.size() > 1 || round.poses[0].one_of_a_line);
    for (const FittedPose& pose : round.poses) {
        EXPECT_TRUE(pose.covariance.allFinite());
        EXPECT_TRUE(as_vector(pose.pose).allFinite());
    }
}

// Of all readings that could be taken next, the one named must be among the best, and do what was
// said of it.
TEST(ReadingFit, TheHelpfulReadingHelpsMoreThanOthers) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const StatedPlace stated{0.3, 0.003};
    const FitBench bench(rod, {0.1, -0.1, 0.001, -0.001});
    std::vector<GapAtLift> readings = all_round(bench, rod);
    // Nobody has been at the top's sides.
    std::erase_if(readings, [](const GapAtLift& reading) {
        return reading.end == BoreEnd::top &&
               (reading.clock_hours == 3.0 || reading.clock_hours == 9.0);
    });
    const ReadingFit before = fit_readings(rod, stated, gauges, readings);
    ASSERT_EQ(before.outcome, FitOutcome::fitted);
    ASSERT_TRUE(before.helpful.has_value());
    const auto doubt_after = [&](double lift, BoreEnd end, double hours) {
        std::vector<GapAtLift> more = readings;
        more.push_back(bench.felt(lift, end, hours));
        const ReadingFit after = fit_readings(rod, stated, gauges, more);
        return after.poses.empty() ? 1e9 : *after.poses[0].minimum.doubt_mm;
    };
    std::vector<double> others;
    for (const double lift : {0.0, rod.full_lift_mm}) {
        for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
            for (const double hours : {2.0, 4.0, 6.0, 8.0, 10.0, 12.0}) {
                others.push_back(doubt_after(lift, end, hours));
            }
        }
    }
    std::sort(others.begin(), others.end());
    const GaugePlace& at = before.helpful->at;
    const double helped = doubt_after(at.place == TurnPlace::on_heel ? 0.0 : rod.full_lift_mm,
                                      at.end, at.clock_hours);
    EXPECT_LT(helped, 0.8 * *before.poses[0].minimum.doubt_mm);
    EXPECT_LT(helped, others[others.size() / 3]);
    // A quarter: where in a gauge's step the gap happens to lie.
    EXPECT_NEAR(helped, before.helpful->doubt_after_mm, 0.25 * before.helpful->doubt_after_mm);
}

TEST(ReadingFit, NamesTheReadingThatDisagreesAndByHowMuch) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const PassagePose planted{0.2, -0.3, 0.001, 0.001};
    const FitBench bench(rod, planted);
    for (const double slip : {0.3, -0.3}) {
        std::vector<GapAtLift> readings = all_round(bench, rod);
        GapAtLift& wrong = readings[5];
        wrong.low_mm = *wrong.low_mm + slip;
        wrong.high_mm = *wrong.high_mm + slip;
        const ReadingFit fit = fit_readings(rod, {0.5, 0.005}, gauges, readings);
        ASSERT_EQ(fit.outcome, FitOutcome::contradicting);
        EXPECT_TRUE(fit.poses.empty());
        ASSERT_TRUE(fit.nearest.has_value());
        ASSERT_FALSE(fit.disagreeing.empty());
        const DisagreeingReading& named = fit.disagreeing[0];
        EXPECT_EQ(named.name, wrong.name);
        EXPECT_TRUE(named.rest_agrees);
        // By the others the gap is what it really is, to half a step of the gauges.
        EXPECT_NEAR(named.expected_mm, bench.gap(0.0, wrong.end, wrong.clock_hours), thou);
        EXPECT_NEAR(named.off_mm, -slip, 1.5 * thou);
        ASSERT_TRUE(named.expected_u_mm.has_value());
        EXPECT_LT(*named.expected_u_mm, thou);
    }
}

TEST(ReadingFit, TwoReadingsAgainstEachOtherAreBothNamed) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    // One place, two gaps: nothing can tell which is right.
    const std::vector<GapAtLift> readings{{"a", 0.0, BoreEnd::top, 12.0, 2.0, 2.02},
                                          {"b", 0.0, BoreEnd::top, 12.0, 2.6, 2.62}};
    const ReadingFit fit = fit_readings(rod, {0.5, 0.005}, gauges, readings);
    ASSERT_EQ(fit.outcome, FitOutcome::contradicting);
    ASSERT_EQ(fit.disagreeing.size(), 2u);
    for (const DisagreeingReading& named : fit.disagreeing) {
        EXPECT_TRUE(named.rest_agrees);
        EXPECT_NEAR(named.off_mm, named.name == "a" ? 0.6 : -0.6, 0.05);
    }
}

TEST(ReadingFit, ReadingsThatAgreeFarFromTheStatedPlaceSaySo) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const PassagePose planted{1.2, 0.0, 0.0, 0.0};
    const ReadingFit fit =
        fit_readings(rod, {0.15, 0.002}, gauges, all_round(FitBench(rod, planted), rod));
    EXPECT_EQ(fit.outcome, FitOutcome::against_stated_place);
    EXPECT_TRUE(fit.poses.empty());
    ASSERT_TRUE(fit.nearest.has_value());
    EXPECT_NEAR(fit.nearest->pose.towards_12_mm, 1.2, 0.05);
    EXPECT_GT(fit.nearest->stated_misfit, 18.47);
}

// An unknown that nobody doubts doesn't move.
TEST(ReadingFit, WhatIsStatedExactlyStays) {
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const PassagePose planted{0.4, -0.2, 0.0, 0.0};
    const ReadingFit fit =
        fit_readings(rod, {0.5, 0.0}, gauges, all_round(FitBench(rod, planted), rod));
    ASSERT_EQ(fit.outcome, FitOutcome::fitted);
    EXPECT_EQ(fit.poses[0].pose.lean_12_rad, 0.0);
    EXPECT_EQ(fit.poses[0].covariance(2, 2), 0.0);
    EXPECT_NEAR(fit.poses[0].pose.towards_12_mm, 0.4, 0.03);
    EXPECT_TRUE(fit.poses[0].weak.empty());
}

GapReading of_engine(const GapAtLift& reading, TurnPlace place) {
    GapReading made;
    made.name = reading.name;
    made.valve = {1, ValveKind::intake, 1};
    made.set_up_id = 4;
    made.place = place;
    made.end = reading.end;
    made.clock_hours = reading.clock_hours;
    made.low_mm = reading.low_mm;
    made.high_mm = reading.high_mm;
    return made;
}

TEST(ReadingFit, OnlyReadingsOfOneValveAndOneSetUpAreFittedTogether) {
    const Engine engine = demo_engine("v8-port-tubes");
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const PassagePose planted{0.3, 0.2, 0.0, 0.0};
    std::vector<GapReading> readings;
    for (const GapAtLift& reading : all_round(FitBench(rod, planted), rod)) {
        readings.push_back(of_engine(
            reading, reading.lobe_lift_mm == 0.0 ? TurnPlace::on_heel : TurnPlace::at_full_lift));
    }
    const FitRequest request{{1, ValveKind::intake, 1}, "tube", 4, {0.5, 0.005}, gauges};
    const auto alone = fit_readings(engine, request, readings);
    ASSERT_TRUE(alone.ok());
    ASSERT_EQ(alone->outcome, FitOutcome::fitted);
    EXPECT_EQ(alone->used.size(), 16u);
    EXPECT_TRUE(alone->left_out.empty());
    EXPECT_NEAR(alone->poses[0].pose.towards_12_mm, 0.3, 0.03);

    // Nonsense, but of elsewhere.
    GapReading other = readings[0];
    other.low_mm = other.high_mm = 0.0;
    const auto add = [&](const std::string& name, auto&& change) {
        GapReading made = other;
        made.name = name;
        change(made);
        readings.push_back(made);
    };
    add("old gasket", [](GapReading& r) { r.set_up_id = 3; });
    add("unknown", [](GapReading& r) { r.set_up_id = {}; });
    add("exhaust", [](GapReading& r) { r.valve.kind = ValveKind::exhaust; });
    add("guide plate", [](GapReading& r) { r.passage = "guide plate"; });
    const auto mixed = fit_readings(engine, request, readings);
    ASSERT_TRUE(mixed.ok());
    EXPECT_EQ(mixed->used, alone->used);
    EXPECT_EQ(as_vector(mixed->poses[0].pose), as_vector(alone->poses[0].pose));
    ASSERT_EQ(mixed->left_out.size(), 4u);
    EXPECT_EQ(mixed->left_out[0].name, "old gasket");
    EXPECT_EQ(mixed->left_out[0].because, LeftOutBecause::other_set_up);
    EXPECT_EQ(mixed->left_out[1].because, LeftOutBecause::set_up_not_known);
    EXPECT_EQ(mixed->left_out[2].because, LeftOutBecause::other_valve);
    EXPECT_EQ(mixed->left_out[3].because, LeftOutBecause::other_passage);
}

// A rod with a step that stands just above the tube's lower mouth at full lift and just below it on
// the heel. The gaps are by the twin, with the radius put in by hand: a rod taken as thick all
// along, or thin, or as thick at full lift as on the heel, is a millimetre off.
TEST(ReadingFit, ASteppedRodIsFeltAsThickAsItIsAtEachMouth) {
    RodInTube rod = demo_rod("v8-port-tubes", 0);
    const double thick = rod.rod_radius_mm;
    const double thin = thick - 1.0;
    const auto lower_mouth = [&](double lift) {
        const RodPlace place = rod_at(rod, lift);
        const Vec3 mouth = rod.tube.centre_K - rod.tube.length_mm / 2.0 * rod.tube.axis_K;
        const Vec3 along = (place.upper_K - place.lower_K).normalized();
        return (mouth - place.lower_K).dot(rod.tube.axis_K) / along.dot(rod.tube.axis_K);
    };
    const double step = (lower_mouth(0.0) + lower_mouth(rod.full_lift_mm)) / 2.0;
    ASSERT_GT(lower_mouth(0.0) - step, 2.0);
    rod.profile = {{0.0, step, thick, thick}, {step, rod.linkage.rod_length_mm(), thin, thin}};
    const PassagePose planted{0.3, -0.2, 0.002, 0.001};
    const Bore tube = twins::moved_by_its_ends(rod.tube, planted);
    std::vector<GapAtLift> readings;
    for (const double lift : {0.0, rod.full_lift_mm}) {
        for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
            RodPlace place = rod_at(rod, lift);
            place.radius_mm = end == BoreEnd::bottom && lift > 0.0 ? thick : thin;
            for (const double hours : {3.0, 6.0, 9.0, 12.0}) {
                const double gap = twins::round_gap(tube, place, end, hours);
                readings.push_back({{}, lift, end, hours, gap - thou / 2.0, gap + thou / 2.0});
            }
        }
    }
    give_names(readings);
    const ReadingFit fit = fit_readings(rod, {0.5, 0.005}, gauges, readings);
    ASSERT_EQ(fit.outcome, FitOutcome::fitted);
    EXPECT_NEAR(fit.poses[0].pose.towards_12_mm, 0.3, 0.01); // gauges' step, sixteen of them
    EXPECT_NEAR(fit.poses[0].pose.towards_3_mm, -0.2, 0.01);
    EXPECT_NEAR(fit.poses[0].pose.lean_12_rad, 0.002, 0.0005);
    // The next reading is expected of the rod as it is there, too.
    ASSERT_TRUE(fit.helpful.has_value());
    const GaugePlace& next = fit.helpful->at;
    const double lift = next.place == TurnPlace::on_heel ? 0.0 : rod.full_lift_mm;
    RodPlace place = rod_at(rod, lift);
    place.radius_mm = next.end == BoreEnd::bottom && lift > 0.0 ? thick : thin;
    EXPECT_NEAR(fit.helpful->expected_mm, twins::round_gap(tube, place, next.end, next.clock_hours),
                thou);
}

// A hole in the head, the head on a gasket thicker by 1.5 mm than when the hole was located, seen
// on the bank's own axis: by hand, hole and rocker stand 1.5 mm farther from the crank.
TEST(ReadingFit, AFurtherPassageIsFittedWhereItStandsNow) {
    Engine engine = demo_engine("v8-port-tubes");
    Passage hole = engine.trains[0].tube;
    hole.name = "head hole";
    hole.casting = Casting::head;
    engine.trains[0].further_passages.push_back(hole);
    HeadSetting setting = engine.heads.of(engine.trains[0].bank);
    const double raised_before = setting.raised_mm();
    setting.gasket_mm += 1.5;
    engine.set_head(engine.trains[0].bank, setting);
    RodInTube rod = *rod_in_tube(engine, engine.trains[0])->rod;
    rod.tube = hole.bore;
    rod.tube.centre_K.z() += raised_before + 1.5;
    const Vec3 moved(0.0, 0.0, 1.5);
    ASSERT_GT((moved - moved.dot(hole.bore.axis_K) * hole.bore.axis_K).norm(), 0.2);

    const PassagePose planted{0.1, -0.1, 0.001, 0.0};
    std::vector<GapReading> readings;
    for (const GapAtLift& reading : all_round(FitBench(rod, planted), rod)) {
        readings.push_back(of_engine(
            reading, reading.lobe_lift_mm == 0.0 ? TurnPlace::on_heel : TurnPlace::at_full_lift));
        readings.back().passage = "head hole";
    }
    const auto fit = fit_readings(
        engine, {{1, ValveKind::intake, 1}, "head hole", 4, {0.5, 0.005}, gauges}, readings);
    ASSERT_TRUE(fit.ok());
    ASSERT_EQ(fit->outcome, FitOutcome::fitted);
    EXPECT_EQ(fit->used.size(), 16u);
    EXPECT_NEAR(fit->poses[0].pose.towards_12_mm, 0.1, 0.03); // gauges' step
    EXPECT_NEAR(fit->poses[0].pose.towards_3_mm, -0.1, 0.03);
    ASSERT_TRUE(fit->poses[0].minimum.found.minimum.has_value());
    EXPECT_EQ(fit->poses[0].minimum.found.minimum->feature, "head hole");
}

TEST(ReadingFit, AReadingAtACrankAngleIsTakenAtItsLift) {
    const Engine engine = demo_engine("v8-port-tubes");
    const RodInTube rod = demo_rod("v8-port-tubes", 0);
    const ValvePosition valve{1, ValveKind::intake, 1};
    const CrankAngle crank = engine.full_lift_angle(valve) + CrankAngle::deg(45.0);
    const double lift = engine.lobe_lift_mm(valve, crank);
    ASSERT_LT(lift, rod.full_lift_mm - 1.0);
    GapReading reading = of_engine(FitBench(rod, {}).felt(lift, BoreEnd::bottom, 3.0, 0.0, 0.002),
                                   TurnPlace::at_crank_angle);
    reading.crank = crank;
    const auto fit = fit_readings(engine, {valve, "tube", 4, {0.001, 0.0}, gauges}, {reading});
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit->poses[0].gaps[0].gap_mm, *reading.low_mm, 0.005);
}

TEST(ReadingFit, RefusesWhatItCantUse) {
    const Engine engine = demo_engine("v8-port-tubes");
    FitRequest request{{1, ValveKind::intake, 1}, "tube", 4, {0.5, 0.005}, gauges};
    GapReading reading = of_engine({"x", 0.0, BoreEnd::top, 12.0, 1.0, 1.1}, TurnPlace::on_heel);
    reading.low_mm = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(fit_readings(engine, request, {reading}).error().field, "readings/x/low");
    request.gauges.u_mm = 0.0;
    EXPECT_EQ(fit_readings(engine, request, {}).error().field, "gauges/u");
    request.gauges = {};
    request.stated.sideways_u_mm = std::numeric_limits<double>::infinity();
    EXPECT_EQ(fit_readings(engine, request, {}).error().field, "stated/sideways");
    request.stated = {};
    request.valve.cylinder = 77;
    EXPECT_EQ(fit_readings(engine, request, {}).error().code, ErrorCode::valve_unknown);
    request.valve.cylinder = 1;
    request.passage = "nowhere";
    EXPECT_EQ(fit_readings(engine, request, {}).error().code, ErrorCode::not_a_choice);
}

TEST(ReadingFit, ATrainThatDoesNotCloseHasAStatusAndNoPose) {
    Engine engine = demo_engine("v8-port-tubes");
    engine.trains[0].rod.length_mm += 40.0;
    const auto fit = fit_readings(engine, {{1, ValveKind::intake, 1}, "tube", 4, {}, gauges}, {});
    ASSERT_TRUE(fit.ok());
    EXPECT_EQ(fit->outcome, FitOutcome::train_has_no_answer);
    EXPECT_NE(fit->train, TrainStatus::answered);
    EXPECT_TRUE(fit->poses.empty());
}

} // namespace
} // namespace rodway
