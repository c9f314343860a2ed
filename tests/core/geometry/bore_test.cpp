#include "core/geometry/bore.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20260403;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

struct Placed {
    Bore tube;
    Vec3 lower_K;
    Vec3 upper_K;
};

/// A tube anywhere, and a rod through it: `tilt_deg` at most, its ends `least_beyond` to
/// `most_beyond` past the end planes.
struct Ways {
    double tilt_deg;
    double shortest_mm, longest_mm;
    double least_beyond_mm, most_beyond_mm;
};

std::optional<Placed> place(std::mt19937_64& random, const Ways& ways) {
    Placed placed;
    Bore& tube = placed.tube;
    tube.centre_K =
        Vec3(between(random, -500, 500), between(random, -500, 500), between(random, -500, 500));
    tube.axis_K =
        Vec3(between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)).normalized();
    tube.length_mm = between(random, ways.shortest_mm, ways.longest_mm);
    tube.bore_radius_mm = between(random, 4.0, 12.0);
    const Vec3 u = tube.axis_K.unitOrthogonal();
    const Vec3 v = tube.axis_K.cross(u);
    const double way = between(random, 0.0, 6.2832);
    const double tilt = radians(between(random, 0.0, ways.tilt_deg));
    const Vec3 direction =
        std::cos(tilt) * tube.axis_K + std::sin(tilt) * (std::cos(way) * u + std::sin(way) * v);
    const double r = tube.bore_radius_mm;
    const Vec3 through = tube.centre_K + between(random, -r, r) * u + between(random, -r, r) * v;
    const double half = tube.length_mm / 2.0;
    placed.lower_K = through - (half + between(random, ways.least_beyond_mm, ways.most_beyond_mm)) /
                                   std::cos(tilt) * direction;
    placed.upper_K = through + (half + between(random, ways.least_beyond_mm, ways.most_beyond_mm)) /
                                   std::cos(tilt) * direction;
    for (const double end : {-half, half}) {
        const Vec3 crossing = through + end / std::cos(tilt) * direction - tube.centre_K;
        if ((crossing - crossing.dot(tube.axis_K) * tube.axis_K).norm() > r - 1e-6) {
            return std::nullopt;
        }
    }
    return placed;
}

/// Against a walk along the rod, and the law that joins the two witness points.
void expect_exact(std::mt19937_64& random, const Ways& ways, int wanted) {
    for (int tried = 0, through = 0; through < wanted; ++tried) {
        ASSERT_LT(tried, 40 * wanted);
        const auto placed = place(random, ways);
        if (!placed) {
            continue;
        }
        ++through;
        const auto found = axis_to_wall(placed->tube, placed->lower_K, placed->upper_K);
        ASSERT_TRUE(found.has_value());
        // 1e-8 mm: golden section on a minimum that may be flat; the walk can't be below the truth.
        const double slow =
            twins::slow_clearance(placed->tube, placed->lower_K, placed->upper_K, 0.0);
        ASSERT_NEAR(found->distance_mm, slow, 1e-8) << "through " << through;
        // Both witnesses: apart by the distance, one on the rod's axis, the other on the wall.
        ASSERT_NEAR((found->p_wall_K - found->p_axis_K).norm(), found->distance_mm, 1e-9);
        const Vec3 rod = placed->upper_K - placed->lower_K;
        const double fraction = (found->p_axis_K - placed->lower_K).dot(rod) / rod.squaredNorm();
        ASSERT_GE(fraction, -1e-12);
        ASSERT_LE(fraction, 1.0 + 1e-12);
        ASSERT_LT((placed->lower_K + fraction * rod - found->p_axis_K).norm(), 1e-9);
        ASSERT_NEAR(signed_distance_to_wall(placed->tube, found->p_wall_K), 0.0, 1e-9);
        ASSERT_NEAR(signed_distance_to_wall(placed->tube, found->p_axis_K), found->distance_mm,
                    1e-9);
        const double along = (found->p_axis_K - placed->tube.centre_K).dot(placed->tube.axis_K);
        ASSERT_NEAR(found->along_tube_mm, along, 1e-9);
        const double end_height =
            (found->p_wall_K - placed->tube.centre_K).dot(placed->tube.axis_K);
        ASSERT_NEAR(end_height, (found->end == BoreEnd::top ? 0.5 : -0.5) * placed->tube.length_mm,
                    1e-9);
    }
}

TEST(Tube, AxisToWallAgreesWithAWalkInRandomPoses) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    expect_exact(random, {12.0, 20.0, 110.0, 30.0, 120.0}, 500);
}

TEST(Tube, StaysExactWithTheRodsEndsJustBeyondTheTube) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    expect_exact(random, {25.0, 10.0, 60.0, 0.0, 3.0}, 500);
}

// Steep and short: the nearest rim point by the ellipse lies inside the tube's length, so that the
// other local minimum, or the crossing itself, is what counts.
TEST(Tube, StaysExactInShortTubesLeaningFortyDegrees) {
    std::cout << "seed " << seed + 2 << '\n';
    std::mt19937_64 random(seed + 2);
    expect_exact(random, {40.0, 0.5, 8.0, 0.0, 40.0}, 1500);
}

// Closed forms.
TEST(Tube, ConcentricOffsetAndGrazing) {
    const Bore tube{Vec3::Zero(), Vec3::UnitZ(), 80.0, 7.0};
    EXPECT_DOUBLE_EQ(axis_to_wall(tube, {0, 0, -90}, {0, 0, 90})->distance_mm, 7.0);
    EXPECT_DOUBLE_EQ(axis_to_wall(tube, {2.5, 0, -90}, {2.5, 0, 90})->distance_mm, 4.5);
    EXPECT_NEAR(axis_to_wall(tube, {0, 6.999, -40}, {0, 6.999, 40})->distance_mm, 0.001, 1e-12);
    // The rod ends exactly in the end planes: it still goes through.
    EXPECT_TRUE(axis_to_wall(tube, {0, 0, -40}, {0, 0, 40}).has_value());
    // Tilted in the plane of offset by 0.1 in slope, the axis at the top plane 4 mm off centre; the
    // foot of the perpendicular from the rim lies inside the tube, so the crossing counts... but
    // the rim's own distance to the line is 3·cos(atan 0.1) on the far side of the plane.
    const auto leaning = axis_to_wall(tube, {-9.0, 0, -90}, {9.0, 0, 90});
    EXPECT_NEAR(leaning->distance_mm, 3.0 * std::cos(std::atan(0.1)), 1e-12);
}

TEST(Tube, NeverGivesADistanceToARodThatDoesNotGoThrough) {
    const Bore tube{Vec3::Zero(), Vec3::UnitZ(), 80.0, 7.0};
    const std::pair<Vec3, Vec3> not_through[] = {
        {{10, 0, -90}, {10, 0, 90}}, // beside it
        {{7, 0, -90}, {7, 0, 90}},   // in its wall
        {{0, 0, -90}, {0, 0, 39.9}}, // ends in the tube
        {{0, 0, -39.9}, {0, 0, 90}}, // begins in it
        {{0, 0, 90}, {0, 0, -90}},   // swapped
        {{20, 0, -90}, {-5, 0, 90}}, // in through the wall, out through the end
        {{-10, 0, 0}, {10, 0, 0}},   // across
        {{0, 0, 50}, {0, 0, 90}},    // above
    };
    for (const auto& [lower, upper] : not_through) {
        EXPECT_FALSE(axis_to_wall(tube, lower, upper).has_value())
            << lower.transpose() << " to " << upper.transpose();
    }
}

TEST(Tube, SignedDistanceOfAPoint) {
    const Bore tube{Vec3(1, 2, 3), Vec3::UnitZ(), 80.0, 7.0};
    const auto at = [&](double r, double z) {
        return signed_distance_to_wall(tube, Vec3(1 + r, 2, 3 + z));
    };
    EXPECT_DOUBLE_EQ(at(0.0, 0.0), 7.0);
    EXPECT_DOUBLE_EQ(at(5.0, 39.0), 2.0);
    EXPECT_DOUBLE_EQ(at(9.0, 0.0), -2.0);   // in the wall, nearest the bore
    EXPECT_DOUBLE_EQ(at(30.0, 39.0), -1.0); // in the wall, nearest its end
    EXPECT_DOUBLE_EQ(at(30.0, 45.0), 5.0);  // over the material
    EXPECT_DOUBLE_EQ(at(4.0, 44.0), 5.0);   // over the bore: 3, 4, 5 from the rim
}

} // namespace
} // namespace rodway
