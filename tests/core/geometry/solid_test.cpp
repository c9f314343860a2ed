#include "core/geometry/solid.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

#include "tests/twins/slow_distance.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261203;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

Vec3 about(std::mt19937_64& random, double spread) {
    return {between(random, -spread, spread), between(random, -spread, spread),
            between(random, -spread, spread)};
}

Solid random_solid(std::mt19937_64& random, int kind) {
    const Vec3 middle = about(random, 100.0);
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(between(random, 0.0, 3.0), about(random, 1.0).normalized())
            .toRotationMatrix();
    switch (kind) {
        case 0:
            return HalfSpace{middle, turn.col(2)};
        case 1:
            return RoundBar{middle, middle + about(random, 20.0), between(random, 1.0, 15.0)};
        case 2:
            return Cuboid{middle,
                          {turn.col(0), turn.col(1), turn.col(2)},
                          Vec3(between(random, 1.0, 20.0), between(random, 1.0, 20.0),
                               between(random, 1.0, 20.0))};
        default:
            return Capsule{middle, middle + about(random, 20.0), between(random, 1.0, 15.0)};
    }
}

TEST(Solid, SignedDistanceAgreesWithThePiecesOfTheSurfaceInsideAndOut) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int inside = 0;
    for (int tried = 0; tried < 8000; ++tried) {
        const Solid solid = random_solid(random, tried % 4);
        const Vec3 near = std::visit(
            [](const auto& shape) -> Vec3 {
                if constexpr (requires { shape.centre_K; }) {
                    return shape.centre_K;
                } else if constexpr (requires { shape.point_K; }) {
                    return shape.point_K;
                } else {
                    return (shape.from_K + shape.to_K) / 2.0;
                }
            },
            solid);
        const Vec3 point = near + about(random, 30.0);
        const SurfacePoint found = signed_distance(solid, point);
        inside += found.distance_mm < 0.0;
        // 1e-9 mm: rounding of coordinates within 200 mm, and of a cross product.
        ASSERT_NEAR(found.distance_mm, twins::slow_distance(solid, point), 1e-9) << tried;
        ASSERT_NEAR(found.outward_K.norm(), 1.0, 1e-12);
        ASSERT_LT((point - found.distance_mm * found.outward_K - found.p_K).norm(), 1e-11);
        ASSERT_NEAR(twins::slow_distance(solid, found.p_K), 0.0, 1e-9) << tried;
    }
    EXPECT_GT(inside, 500);
}

// Exact by hand.
TEST(Solid, CornersEdgesAndMiddles) {
    const Solid bar = RoundBar{{0, 0, -10}, {0, 0, 10}, 5.0};
    EXPECT_DOUBLE_EQ(signed_distance(bar, {8, 0, 14}).distance_mm, 5.0); // 3, 4, 5 from the rim
    EXPECT_DOUBLE_EQ(signed_distance(bar, {0, 0, 12}).distance_mm, 2.0);
    EXPECT_DOUBLE_EQ(signed_distance(bar, {0, 0, 0}).distance_mm, -5.0);
    EXPECT_DOUBLE_EQ(signed_distance(bar, {1, 0, 9}).distance_mm, -1.0);
    const Solid box = Cuboid{{1, 2, 3}, {Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ()}, {4, 5, 6}};
    EXPECT_DOUBLE_EQ(signed_distance(box, {1, 2, 3}).distance_mm, -4.0);
    EXPECT_DOUBLE_EQ(signed_distance(box, {6, 9, 11}).distance_mm, 3.0); // 1, 2, 2 past a corner
    const Solid capsule = Capsule{{0, 0, 0}, {10, 0, 0}, 2.0};
    EXPECT_DOUBLE_EQ(signed_distance(capsule, {13, 4, 0}).distance_mm, 3.0);
    EXPECT_DOUBLE_EQ(signed_distance(capsule, {5, 0, 0}).distance_mm, -2.0);
    const Solid ball = Capsule{{0, 0, 0}, {0, 0, 0}, 2.0};
    EXPECT_DOUBLE_EQ(signed_distance(ball, {0, 0, 0}).distance_mm, -2.0);
    EXPECT_DOUBLE_EQ(signed_distance(ball, {0, 3, 4}).distance_mm, 3.0);
}

TEST(Solid, TurnedAndShiftedKeepsItsDistances) {
    std::mt19937_64 random(seed + 1);
    std::cout << "seed " << seed + 1 << '\n';
    for (int tried = 0; tried < 200; ++tried) {
        const Solid solid = random_solid(random, tried % 4);
        const Eigen::Matrix3d R =
            Eigen::AngleAxisd(between(random, 0.0, 3.0), about(random, 1.0).normalized())
                .toRotationMatrix();
        const Vec3 by = about(random, 50.0);
        const Vec3 point = about(random, 120.0);
        ASSERT_NEAR(signed_distance(shifted(turned(solid, R), by), R * point + by).distance_mm,
                    signed_distance(solid, point).distance_mm, 1e-9);
    }
}

} // namespace
} // namespace rodway
