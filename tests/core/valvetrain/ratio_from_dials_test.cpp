#include "core/valvetrain/ratio_from_dials.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/units/length.h"
#include "core/valvetrain/train_motion.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;

Interval in(double inches) {
    return Interval::read(inches, inches, 0.001) * Length::mm_per_inch;
}

// Arithmetic: a rocker of ratio 1.5 throughout, .020 in of lash, dials that showed .002 and -.003
// on the heel: valve = 1.5·lifter - .020, each dial's own zero added.
TEST(RatioFromDials, TakesOffZeroErrorAndLash) {
    DialReadings readings;
    readings.on_heel = {in(0.002), in(-0.003)};
    readings.lash_mm = in(0.020);
    for (const double lifter : {0.010, 0.100, 0.200, 0.340}) {
        const double valve = std::max(0.0, 1.5 * lifter - 0.020);
        readings.pairs.push_back({in(lifter + 0.002), in(valve - 0.003)});
    }
    const auto found = ratio_from_dials(readings);
    ASSERT_TRUE(found.ok());
    ASSERT_EQ(found->size(), 4u);
    EXPECT_FALSE((*found)[0].overall.has_value()) << "the lash isn't gone yet";
    EXPECT_FALSE((*found)[0].step.has_value());
    EXPECT_FALSE((*found)[1].step.has_value()) << "the valve stood still for part of it";
    const DialRatio& full = (*found)[3];
    EXPECT_NEAR(Length::mm(full.valve_lift_mm.middle()).in_inches(), 0.490, 1e-9);
    EXPECT_NEAR(Length::mm(full.lifter_lift_mm.half_width()).in_inches(), 0.001, 1e-9);
    EXPECT_TRUE(full.overall->holds(1.5));
    // Worked by hand: (.510±.0015)/(.340±.001).
    EXPECT_NEAR(full.overall->low, 0.5085 / 0.341, 1e-9);
    EXPECT_NEAR(full.overall->high, 0.5115 / 0.339, 1e-9);
    EXPECT_NEAR(full.net->middle(), 0.490 / 0.340, 1e-4);
    EXPECT_FALSE(full.net->holds(1.5)) << "lash is what it lacks";
    // (.210±.001)/(.140±.001): the zero's doubt drops out.
    EXPECT_NEAR(full.step->low, 0.209 / 0.141, 1e-9);
    EXPECT_NEAR(full.step->high, 0.211 / 0.139, 1e-9);
}

TEST(RatioFromDials, WithoutALashThereIsNoOverallRatio) {
    DialReadings readings;
    readings.pairs = {{in(0.100), in(0.130)}, {in(0.200), in(0.280)}};
    const auto found = ratio_from_dials(readings);
    EXPECT_FALSE((*found)[1].overall.has_value());
    EXPECT_TRUE((*found)[1].net.has_value());
    EXPECT_TRUE((*found)[1].step->holds(1.5));
    readings.lash_mm = Interval::exactly(0.0);
    EXPECT_TRUE(ratio_from_dials(readings)->at(1).overall->holds(1.4)) << "nothing is a lash too";
}

// The closed train's own lifts, rounded as a dial shows them: its ratio lies within the answer.
TEST(RatioFromDials, HoldsTheRatioOfAClosedTrain) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const double step_mm = 0.01;
    const auto shown = [&](double mm) {
        const double rounded = std::round(mm / step_mm) * step_mm;
        return Interval::read(rounded, rounded, step_mm);
    };
    int answered = 0;
    double widest = 0.0;
    while (answered < 200) {
        twins::RandomTrain made = twins::random_train(random);
        made.train.valve.lash_mm = 0.4;
        const auto closing = Linkage::close(made.train);
        if (!closing.linkage || made.full_lift_mm < 6.0) {
            continue;
        }
        DialReadings readings;
        readings.lash_mm = shown(0.4);
        readings.on_heel = {shown(0.13), shown(-0.27)};
        std::vector<TrainAtLift> truth;
        for (const double share : {0.4, 0.6, 0.8, 1.0}) {
            const auto at = train_at_lift(made.train, *closing.linkage, share * made.full_lift_mm);
            if (at) {
                truth.push_back(*at);
                readings.pairs.push_back(
                    {shown(at->lobe_lift_mm + 0.13), shown(at->net_lift_mm - 0.27)});
            }
        }
        if (truth.size() != 4 || !(truth[0].net_lift_mm > 0.5)) {
            continue;
        }
        ++answered;
        const auto found = ratio_from_dials(readings);
        ASSERT_TRUE(found.ok());
        for (std::size_t at = 0; at < 4; ++at) {
            const TrainAtLift& here = truth[at];
            ASSERT_TRUE((*found)[at].overall->holds(here.gross_lift_mm / here.lobe_lift_mm));
            widest = std::max(widest, (*found)[at].overall->half_width());
            if (at > 0) {
                const TrainAtLift& before = truth[at - 1];
                ASSERT_TRUE((*found)[at].step->holds((here.gross_lift_mm - before.gross_lift_mm) /
                                                     (here.lobe_lift_mm - before.lobe_lift_mm)));
            }
        }
    }
    EXPECT_LT(widest, 0.03) << "and the answer says something";
}

TEST(RatioFromDials, BadReadingsAreNamed) {
    DialReadings readings;
    EXPECT_EQ(ratio_from_dials(readings).error().code, ErrorCode::too_few_rows);
    readings.pairs = {{in(0.100), in(0.130)}, {in(0.100), in(0.280)}};
    EXPECT_EQ(ratio_from_dials(readings).error().code, ErrorCode::order_wrong);
    EXPECT_EQ(ratio_from_dials(readings).error().line, 2);
    readings.pairs = {{in(0.100), in(2.130)}};
    EXPECT_EQ(ratio_from_dials(readings).error().field, "valve");
    readings.pairs = {{in(0.100), in(0.130)}};
    readings.lash_mm = {-0.1, 0.1};
    EXPECT_EQ(ratio_from_dials(readings).error().field, "lash");
    readings.lash_mm.reset();
    readings.on_heel.valve_mm = Interval::exactly(std::nan(""));
    EXPECT_EQ(ratio_from_dials(readings).error().field, "on_heel/valve");
    // A lifter that may not have moved has no ratio.
    readings = {};
    readings.pairs = {{{-0.01, 0.01}, {0.1, 0.2}}};
    EXPECT_FALSE(ratio_from_dials(readings)->at(0).net.has_value());
}

} // namespace
} // namespace rodway
