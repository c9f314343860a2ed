// A straight rod beside an obstacle, by FCL: capsule to capsule is exact there, to a bar or a box
// it is found step by step.
#include <gtest/gtest.h>

#include <array>
#include <iostream>

#include "core/geometry/rod_to_solid.h"
#include "tests/witness/fcl_witness.h"
#include "tests/witness/placed_rod.h"

namespace rodway::witness {
namespace {

constexpr std::uint64_t seed = 20260516;

struct Tried {
    int clear = 0;
    int touching = 0;
    double worst_mm = 0.0;
};

/// Random rods about a random solid of one kind: the same distance where FCL finds one, and less
/// than nothing where it finds that they share space.
template <typename Shape, typename Make>
void expect_as_by_fcl(std::uint64_t with_seed, double within_mm, const Make& make) {
    std::cout << "seed " << with_seed << '\n';
    std::mt19937_64 random(with_seed);
    Tried tried;
    for (int each = 0; each < 2000; ++each) {
        const Shape shape = make(random);
        const double length = between(random, 60.0, 250.0);
        const Vec3 lower = between(random, 0.0, 120.0) * random_direction(random);
        const Vec3 upper = lower + length * random_direction(random);
        const double radius = between(random, 3.0, 6.0);
        const std::array<RoundSection, 1> rod{RoundSection{0.0, length, radius, radius}};
        const auto ours = rod_to_solid(Solid(shape), lower, upper, rod);
        ASSERT_TRUE(ours.has_value());
        const auto by_fcl = fcl_distance(Capsule{lower, upper, radius}, shape);
        if (by_fcl) {
            ++tried.clear;
            ASSERT_NEAR(ours->clearance_mm, *by_fcl, within_mm) << "rod " << each;
            tried.worst_mm = std::max(tried.worst_mm, std::abs(ours->clearance_mm - *by_fcl));
        } else {
            ++tried.touching;
            ASSERT_LT(ours->clearance_mm, within_mm) << "rod " << each;
        }
    }
    std::cout << tried.clear << " clear, within " << tried.worst_mm << " mm; " << tried.touching
              << " touching\n";
    EXPECT_GT(tried.clear, 500);
    EXPECT_GT(tried.touching, 100);
}

Vec3 anywhere(std::mt19937_64& random) {
    return between(random, 0.0, 60.0) * random_direction(random);
}

TEST(SolidWitness, Capsules) {
    expect_as_by_fcl<Capsule>(seed, 1e-9, [](std::mt19937_64& random) {
        const Vec3 from = anywhere(random);
        return Capsule{from, from + between(random, 5.0, 90.0) * random_direction(random),
                       between(random, 2.0, 15.0)};
    });
}

TEST(SolidWitness, RoundBars) {
    expect_as_by_fcl<RoundBar>(seed + 1, 1e-5, [](std::mt19937_64& random) {
        const Vec3 from = anywhere(random);
        return RoundBar{from, from + between(random, 5.0, 90.0) * random_direction(random),
                        between(random, 2.0, 25.0)};
    });
}

TEST(SolidWitness, Cuboids) {
    expect_as_by_fcl<Cuboid>(seed + 2, 1e-5, [](std::mt19937_64& random) {
        Cuboid box;
        box.centre_K = anywhere(random);
        box.axes_K[0] = random_direction(random);
        box.axes_K[1] = box.axes_K[0].unitOrthogonal();
        box.axes_K[2] = box.axes_K[0].cross(box.axes_K[1]);
        for (int axis = 0; axis < 3; ++axis) {
            box.half_sizes_mm[axis] = between(random, 3.0, 40.0);
        }
        return box;
    });
}

} // namespace
} // namespace rodway::witness
