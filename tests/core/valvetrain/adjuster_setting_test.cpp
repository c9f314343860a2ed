#include "core/valvetrain/adjuster_setting.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/units/angle.h"
#include "core/valvetrain/train_motion.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261125;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

/// The same on a stud: the nut's way is the stud's, and what it moves is the pivot.
twins::RandomTrain stud_train(std::mt19937_64& random) {
    twins::RandomTrain made = twins::skew_train(random);
    made.train.rocker.mount = RockerMount::stud;
    made.train.adjuster.kind = AdjusterKind::nut;
    made.train.adjuster.axis_K =
        Vec3(between(random, -0.2, 0.2), between(random, -0.2, 0.2), -1.0).normalized();
    return made;
}

twins::RandomTrain plunger_train(std::mt19937_64& random) {
    twins::RandomTrain made = twins::random_train(random);
    made.train.lifter.kind = LifterKind::hydraulic;
    made.train.lifter.plunger_travel_mm = 5.0;
    made.train.lifter.preload_mm = 1.0;
    made.train.adjuster.kind = AdjusterKind::none;
    made.train.valve.lash_mm = 0.0;
    made.train.rod.length_mm += between(random, 0.0, 4.0);
    return made;
}

TEST(AdjusterSetting, NutAgreesWithTwoNestedBisections) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    double farthest = 0.0;
    int answered = 0;
    for (int made = 0; made < 4000; ++made) {
        const Train train = stud_train(random).train;
        const Setting set = set_nut(train);
        if (set.status != TrainStatus::answered) {
            continue;
        }
        ++answered;
        farthest = std::max(farthest, std::abs(set.adjuster_in_mm));
        const auto slow = twins::slow_nut(train);
        ASSERT_TRUE(slow.has_value()) << "train " << made;
        ASSERT_NEAR(set.adjuster_in_mm, *slow, accuracy::setting_mm) << "train " << made;
        // The tip has kept its gap, and the rod its length.
        const Vec3 tip = set.pivot_K + set.tip_arm_K;
        const Vec3 found = train.rocker.pivot_K + train.rocker.tip_arm_K;
        ASSERT_NEAR(train.valve.axis_K.dot(tip - found), 0.0, accuracy::place_mm);
        ASSERT_NEAR((set.pivot_K + set.ball_arm_K - set.lower_ball_K).norm(), train.rod.length_mm,
                    accuracy::setting_mm);
    }
    EXPECT_GT(answered, 3000);
    EXPECT_GT(farthest, 1.0) << "the nut has something to do";
}

TEST(AdjusterSetting, PlungerTakesUpExactlyWhatTheRodLeaves) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    int answered = 0;
    for (int made = 0; made < 4000; ++made) {
        const Train train = plunger_train(random).train;
        const auto closing = Linkage::close(train);
        if (!closing.linkage) {
            continue;
        }
        ++answered;
        const double deep = closing.linkage->preload_mm();
        ASSERT_GE(deep, 0.0);
        ASSERT_LE(deep, train.lifter.plunger_travel_mm);
        const Vec3 lower =
            train.lifter.foot_K + (train.lifter.seat_height_mm - deep) * train.lifter.axis_K;
        const Vec3 upper = train.rocker.pivot_K + train.rocker.ball_arm_K;
        ASSERT_NEAR((upper - lower).norm(), train.rod.length_mm, accuracy::setting_mm);
    }
    EXPECT_GT(answered, 2000);
}

TEST(AdjusterSetting, PlungerOutOfTravelSaysHowFar) {
    std::mt19937_64 random(seed + 2);
    Train train = twins::random_train(random).train;
    train.lifter.kind = LifterKind::hydraulic;
    train.lifter.plunger_travel_mm = 4.0;
    train.adjuster.kind = AdjusterKind::none;
    train.valve.lash_mm = 0.0;
    const double fits = rod_lengths(train)->shortest_mm; // plunger at its stop
    train.rod.length_mm = fits - 0.5;
    const auto short_rod = Linkage::close(train);
    EXPECT_EQ(short_rod.status, TrainStatus::plunger_out_of_travel);
    EXPECT_LT(short_rod.adjuster_needed_mm.value(), -0.4);
    train.rod.length_mm = fits + 6.0;
    const auto long_rod = Linkage::close(train);
    EXPECT_EQ(long_rod.status, TrainStatus::plunger_out_of_travel);
    EXPECT_GT(long_rod.adjuster_needed_mm.value(), 5.0);
}

TEST(AdjusterSetting, WithNothingToTurnALongerRodTakesLashAway) {
    std::mt19937_64 random(seed + 3);
    Train train = twins::random_train(random).train;
    train.adjuster.kind = AdjusterKind::none;
    train.valve.lash_mm = 0.4;
    const auto as_found = Linkage::close(train);
    ASSERT_TRUE(as_found.linkage);
    EXPECT_NEAR(as_found.linkage->lash_mm(), 0.4, accuracy::lift_mm);
    train.rod.length_mm += 0.1;
    const auto longer = Linkage::close(train);
    ASSERT_TRUE(longer.linkage);
    EXPECT_LT(longer.linkage->lash_mm(), 0.4 - 0.05);
    train.rod.length_mm += 1.0;
    EXPECT_EQ(Linkage::close(train).status, TrainStatus::rod_too_long) << "it holds the valve open";
}

TEST(AdjusterSetting, TurningTheScrewInTakesLashAwayAsTheRockerTurns) {
    std::cout << "seed " << seed + 4 << '\n';
    std::mt19937_64 random(seed + 4);
    int compared = 0;
    for (int made = 0; made < 2000; ++made) {
        twins::RandomTrain drawn = made % 2 == 0 ? twins::skew_train(random) : stud_train(random);
        const Train& train = drawn.train;
        const double in = between(random, -0.3, 0.3);
        const AdjusterTurned turned = turn_adjuster(train, in);
        if (!turned.lash_mm) {
            continue;
        }
        const auto slow = twins::slow_lash_after_turn(train, in);
        if (!slow) {
            continue;
        }
        ++compared;
        ASSERT_NEAR(*turned.lash_mm, *slow, accuracy::lift_mm) << "train " << made;
    }
    EXPECT_GT(compared, 1500);
}

/// Question 11. Common practice has it that a nut on a stud moves the rod's seat by 1 + 1/ratio of
/// its own travel; with everything square that is geometry: the tip stands, so the ball end goes
/// down by (tip arm + ball arm)/tip arm.
TEST(AdjusterSetting, NutOnASquareStudMovesThePlungerByOnePlusOneOverRatio) {
    Train train;
    train.lifter.kind = LifterKind::hydraulic;
    train.lifter.seat_height_mm = 40.0;
    train.lifter.preload_mm = 1.0;
    train.lifter.plunger_travel_mm = 5.0;
    train.lifter.foot_K = {0.0, -20.0, 0.0};
    train.rocker.mount = RockerMount::stud;
    train.rocker.pivot_K = {0.0, 0.0, 260.0};
    train.rocker.ball_arm_K = {0.0, -20.0, 0.0};
    train.rocker.tip_arm_K = {0.0, 32.0, 0.0};
    train.adjuster.kind = AdjusterKind::nut;
    train.adjuster.axis_K = -Vec3::UnitZ();
    train.adjuster.can_go_in_mm = 5.0;
    train.adjuster.can_go_out_mm = 5.0;
    train.rod.length_mm = 221.0;
    train.rod.diameter_mm = 8.0;
    const double pitch = 25.4 / 24.0; // 3/8-24
    const auto turned = turn_adjuster(train, 0.75 * pitch);
    ASSERT_TRUE(turned.preload_mm);
    // The arms' small tilt: 1e-3 relative.
    EXPECT_NEAR(*turned.preload_mm - 1.0, 0.75 * pitch * (1.0 + 20.0 / 32.0), 0.02);
    EXPECT_GT(*turned.preload_mm - 1.0, 1.5 * 0.75 * pitch) << "the lever counts";
}

TEST(AdjusterSetting, RodLengthsCloseAtBothEndsOfTheThread) {
    std::cout << "seed " << seed + 5 << '\n';
    std::mt19937_64 random(seed + 5);
    for (int made = 0; made < 500; ++made) {
        Train train = made % 2 == 0 ? twins::skew_train(random).train : stud_train(random).train;
        const auto lengths = rod_lengths(train);
        if (!lengths) {
            continue;
        }
        for (const auto& [length, expected] :
             {std::pair{lengths->as_found_mm, 0.0},
              std::pair{lengths->shortest_mm, train.adjuster.can_go_in_mm}}) {
            train.rod.length_mm = length;
            train.adjuster.can_go_in_mm += 1e-6; // rounding must not push it off its thread
            const auto closing = Linkage::close(train);
            train.adjuster.can_go_in_mm -= 1e-6;
            if (closing.linkage) {
                ASSERT_NEAR(closing.linkage->adjuster_in_mm(), expected, 1e-6) << made;
            }
        }
    }
}

} // namespace
} // namespace rodway
