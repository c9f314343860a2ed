#include "core/geometry/rod_to_solid.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

#include "tests/twins/slow_distance.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261205;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

Vec3 about(std::mt19937_64& random, double spread) {
    return {between(random, -spread, spread), between(random, -spread, spread),
            between(random, -spread, spread)};
}

TEST(RodToSolid, AgreesWithAWalkForEverySolidAndProfileInsideAndOut) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int pierced = 0;
    int held = 0;
    for (int tried = 0; tried < 2000; ++tried) {
        const Vec3 middle = about(random, 40.0);
        const Vec3 axis = about(random, 1.0).normalized();
        const Vec3 beside = axis.unitOrthogonal();
        const std::array<Solid, 4> kinds{
            HalfSpace{middle, axis}, RoundBar{middle, middle + about(random, 30.0), 8.0},
            Cuboid{middle, {axis, beside, axis.cross(beside)}, Vec3(3.0, 9.0, 20.0)},
            Capsule{middle, middle + about(random, 30.0), 6.0}};
        const Solid& solid = kinds[static_cast<std::size_t>(tried % 4)];
        const Vec3 lower = about(random, 60.0);
        const Vec3 upper = about(random, 60.0);
        const double length = (upper - lower).norm();
        const double step = between(random, 0.0, length);
        const double thin = between(random, 2.0, 8.0);
        const double thick = between(random, 2.0, 8.0);
        const double end = tried % 3 == 0 ? thick : between(random, 2.0, 8.0);
        const std::vector<RodSection> profile{{0.0, step, thin, thin}, {step, length, thick, end}};
        const RoundSections sections{{0.0, step, thin / 2.0, thin / 2.0},
                                     {step, length, thick / 2.0, end / 2.0}};
        const auto found = rod_to_solid(solid, lower, upper, sections);
        ASSERT_TRUE(found.has_value());
        const auto distance = [&](const Vec3& p) { return twins::slow_distance(solid, p); };
        // 1e-8 mm: golden section on a minimum that may be flat.
        ASSERT_NEAR(found->clearance_mm, twins::slow_clearance(distance, lower, upper, profile),
                    1e-8)
            << tried;
        pierced += found->axis_mm() < 0.0;
        held += found->held_by_rod;
        ASSERT_NEAR(distance(found->p_wall_K), 0.0, 1e-9);
        ASSERT_LT((found->p_wall_K - found->p_axis_K - found->axis_mm() * found->normal_K).norm(),
                  1e-9);
    }
    EXPECT_GT(pierced, 200);
    EXPECT_GT(held, 100);
}

TEST(RodToSolid, NeedsSectionsAndNumbers) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const Solid capsule = Capsule{{0, 0, 0}, {10, 0, 0}, 2.0};
    const RoundSections straight{{0, 10, 3, 3}};
    EXPECT_FALSE(rod_to_solid(capsule, {0, 0, 9}, {10, 0, 9}, {}));
    EXPECT_FALSE(rod_to_solid(capsule, {0, nan, 9}, {10, 0, 9}, straight));
    EXPECT_FALSE(
        rod_to_solid(Capsule{{0, 0, 0}, {10, 0, 0}, nan}, {0, 0, 9}, {10, 0, 9}, straight));
    EXPECT_FALSE(
        rod_to_solid(HalfSpace{{0, nan, 0}, Vec3::UnitZ()}, {0, 0, 9}, {10, 0, 9}, straight));
    // A rod of no length is a ball.
    EXPECT_DOUBLE_EQ(
        rod_to_solid(capsule, {5, 0, 9}, {5, 0, 9}, RoundSections{{0, 0, 3, 3}})->clearance_mm,
        4.0);
}

} // namespace
} // namespace rodway
