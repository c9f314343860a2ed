#include "core/clearance/rod_clearance.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <numbers>

#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

const Bore upright{Vec3(10, 20, 30), Vec3::UnitZ(), 80.0, 7.0};

// Seen from the rocker down with the engine's front at the top: front is -x, so 3 o'clock is +y.
TEST(WallDirection, TheClockStandsAsTheBuilderLooksDown) {
    const auto hours = [](double x, double y) {
        return wall_direction(upright, upright.centre_K + Vec3(x, y, 40.0), 1.0).clock_hours;
    };
    EXPECT_DOUBLE_EQ(hours(-7, 0), 12.0);
    EXPECT_NEAR(hours(0, 7), 3.0, 1e-12);
    EXPECT_NEAR(hours(7, 0), 6.0, 1e-12);
    EXPECT_NEAR(hours(0, -7), 9.0, 1e-12);
    EXPECT_NEAR(hours(-7, 7), 1.5, 1e-12);
    for (double angle = 0.0; angle < 6.28; angle += 0.01) {
        const double clock = hours(-std::cos(angle), std::sin(angle));
        EXPECT_GT(clock, 0.0); // (0, 12]
        EXPECT_LE(clock, 12.0);
        EXPECT_NEAR(std::fmod(clock, 12.0), angle * 6.0 / std::numbers::pi, 1e-9);
    }
}

TEST(WallDirection, OutboardIsTheSideTheBankLeansTo) {
    const auto wall = [](double x, double y, double outboard) {
        return wall_direction(upright, upright.centre_K + Vec3(x, y, 0.0), outboard).wall;
    };
    EXPECT_EQ(wall(-7, 1, 1.0), Wall::front);
    EXPECT_EQ(wall(7, -1, 1.0), Wall::rear);
    EXPECT_EQ(wall(1, 7, 1.0), Wall::outboard);
    EXPECT_EQ(wall(1, -7, 1.0), Wall::inboard);
    EXPECT_EQ(wall(1, 7, -1.0), Wall::inboard);
    EXPECT_EQ(wall(1, -7, -1.0), Wall::outboard);
    EXPECT_EQ(wall(-7, 1, -1.0), Wall::front);
}

TEST(WallDirection, ALeaningTubeIsReadSquareToItsOwnAxis) {
    Bore leaning = upright;
    leaning.axis_K = Vec3(0.3, 0.2, std::sqrt(1.0 - 0.13)).normalized();
    const Vec3 forward = (-Vec3::UnitX() + leaning.axis_K.x() * leaning.axis_K).normalized();
    const Vec3 side = forward.cross(leaning.axis_K);
    const double along = 25.0; // where along the tube doesn't matter
    const auto hours = [&](const Vec3& out) {
        return wall_direction(leaning, leaning.centre_K + out + along * leaning.axis_K, 1.0)
            .clock_hours;
    };
    EXPECT_NEAR(std::fmod(hours(7.0 * forward), 12.0), 0.0, 1e-9);
    EXPECT_NEAR(hours(7.0 * side), 3.0, 1e-9);
    EXPECT_GT(side.y(), 0.9);
}

TEST(RodClearance, WitnessesAreApartByTheClearanceAlongTheNormal) {
    const std::uint64_t seed = 8181;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int touching = 0;
    for (int answered = 0; answered < 1000;) {
        const twins::RandomTrain train = twins::random_train(random);
        const auto closing = Linkage::close(train.train);
        if (!closing.linkage) {
            continue;
        }
        RodInTube rod{*closing.linkage, train.train.tube.bore, train.train.rod.diameter_mm / 2.0,
                      train.full_lift_mm, 1.0};
        rod.rod_radius_mm *= answered % 2 == 0 ? 1.0 : 1.4; // half of them interfere
        const double s = std::uniform_real_distribution<double>(0.0, train.full_lift_mm)(random);
        const auto found = rod_clearance_at(rod, s);
        if (!found) {
            continue;
        }
        ++answered;
        touching += found->clearance_mm < 0.0;
        EXPECT_EQ(found->lobe_lift_mm, s);
        EXPECT_NEAR(found->normal_K.norm(), 1.0, 1e-9);
        ASSERT_LT((found->p_wall_K - found->p_rod_K - found->clearance_mm * found->normal_K).norm(),
                  1e-9);
        const auto pose = rod.linkage.at(s);
        ASSERT_NEAR(found->clearance_mm,
                    twins::slow_clearance(rod.tube, pose->lower_ball_K, pose->upper_ball_K,
                                          rod.rod_radius_mm),
                    1e-8);
        // On the rod's surface: its radius from its axis. On the wall: nothing from it.
        const Vec3 axis = (pose->upper_ball_K - pose->lower_ball_K).normalized();
        const Vec3 from_ball = found->p_rod_K - pose->lower_ball_K;
        ASSERT_NEAR((from_ball - from_ball.dot(axis) * axis).norm(), rod.rod_radius_mm, 1e-6);
        ASSERT_NEAR(signed_distance_to_wall(rod.tube, found->p_wall_K), 0.0, 1e-9);
        // Depth from the rocker end: the wall point is on a rim.
        const double depth = found->in_passage->end == BoreEnd::top ? 0.0 : rod.tube.length_mm;
        ASSERT_NEAR(found->in_passage->depth_mm, depth, 1e-9);
    }
    EXPECT_GT(touching, 50);
}

} // namespace
} // namespace rodway
