// Distances, and how fast they may change, against published and recomputed values. DG-n are rows
// of such values, recomputed with 25 to 40 digits or exact rationals, which is said beside each.
//
// What is ours here: `closest_points`, `nearest_fraction`, `axis_to_wall`,
// `signed_distance_to_wall` and `Linkage`. DG-7, box to box, only fixes the tests' own mesh
// (tests/twins/triangle_mesh.h), whose edges are measured by `closest_points`. FCL and CGAL say the
// same in tests/witness, where DG-8, a segment in a tube of triangles, stands as well.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <numbers>
#include <random>

#include "core/geometry/bore.h"
#include "core/units/length.h"
#include "tests/reference/planar_train.h"
#include "tests/twins/triangle_mesh.h"

namespace rodway {
namespace {

constexpr double pi = std::numbers::pi;
constexpr std::uint64_t seed = 20260511;

/// The distance of two segments, which must not depend on which is first or which way they run.
double both_ways(const Segment& p, const Segment& q) {
    const SegmentPair found = closest_points(p, q);
    const SegmentPair turned = closest_points({q.b, q.a}, {p.b, p.a});
    EXPECT_NEAR(turned.distance, found.distance, 1e-14);
    EXPECT_NEAR((q.at(found.on_second) - p.at(found.on_first)).norm(), found.distance, 1e-15);
    return found.distance;
}

// DG-1. Eberly, "Robust Computation of Distance Between Line Segments" (Geometric Tools), example
// 3: printed 0.98292397116488739, exactly …33909. Tolerance: rounding.
TEST(DistanceReference, OrdinarySegments) {
    const Segment p{{0.77998990099877119, 0.61192502360790968, -0.22703111823648214},
                    {0.53215344529598951, 0.85724585503339767, -0.10102437809109688}};
    const Segment q{{-0.21277333982288837, 0.35091548087075353, -0.49557160679250956},
                    {0.11881479667499661, 0.022494725417345762, -0.66426620958372951}};
    EXPECT_NEAR(both_ways(p, q), 0.98292397116488733909, 1e-14);
    const SegmentPair found = closest_points(p, q);
    EXPECT_EQ(found.on_first, 1.0);
    EXPECT_NEAR(found.on_second, 0.05750421952, 5e-12); // digits given
}

// DG-2. The same, example 2, nearly parallel: 1.1575046138574105e-7 (exact rationals). A code that
// divides by the plain determinant answers 0.43258687891. Tolerance: rounding of coordinates near 1
// is 1e-16, of the cross product 1e-12.
TEST(DistanceReference, NearlyParallelSegments) {
    const Segment p{{-1.0896217473782599, 9.7236145595088601e-7, 0.0},
                    {0.91220578597858548, -9.4369829432107506e-7, 0.0}};
    const Segment q{{-0.90010447502136237, 9.0671446351334441e-7, 0.0},
                    {1.0730877178721130, -9.8185787633992740e-7, 0.0}};
    EXPECT_NEAR(both_ways(p, q), 1.1575046138574105e-7, 1e-12);
    EXPECT_NEAR(closest_points(p, q).on_first, 0.0946721, 5e-8);
    EXPECT_EQ(closest_points(p, q).on_second, 0.0);
}

// F-7: the same source's example 1 prints 9.7307189345304538e-10 for segments that cross: it is
// what rounding left, and the true distance is 0. Here with the crossing made exact.
TEST(DistanceReference, NearlyParallelSegmentsThatCross) {
    const Segment p{{-1.0, 1e-7, 0.0}, {1.0, -1e-7, 0.0}};
    const Segment q{{-1.0, -1e-7, 0.0}, {1.0, 1e-7, 0.0}};
    EXPECT_NEAR(both_ways(p, q), 0.0, 1e-8);
    EXPECT_NEAR(closest_points(p, q).on_first, 0.5, 1e-6);
}

// DG-3. Exact by hand: inside to inside, parallel above each other, end to end, in line, points,
// crossing, end to inside. Tolerance: rounding.
TEST(DistanceReference, EveryKindOfNearestPair) {
    struct Case {
        Segment p, q;
        double distance;
    };
    const Case cases[] = {
        {{{0, 0, 0}, {1, 0, 0}}, {{.5, -1, 1}, {.5, 1, 1}}, 1.0},
        {{{0, 0, 0}, {10, 0, 0}}, {{2, 3, 4}, {8, 3, 4}}, 5.0},
        {{{0, 0, 0}, {1, 0, 0}}, {{3, 4, 0}, {5, 4, 0}}, 4.47213595499958},
        {{{0, 0, 0}, {1, 0, 0}}, {{2, 0, 0}, {3, 0, 0}}, 1.0},
        {{{1, 2, 3}, {1, 2, 3}}, {{4, 6, 3}, {4, 6, 3}}, 5.0},
        {{{0, 0, 0}, {2, 2, 0}}, {{0, 2, 0}, {2, 0, 0}}, 0.0},
        {{{0, 0, 0}, {1, 1, 1}}, {{3, 3, 1}, {5, 5, 1}}, 2.82842712474619},
    };
    for (const Case& each : cases) {
        EXPECT_NEAR(both_ways(each.p, each.q), each.distance, 1e-14);
        EXPECT_NEAR(both_ways(each.q, each.p), each.distance, 1e-14);
    }
}

// DG-4, DG-5. Capsules of radius 5, 10 between the balls' centres, the first on z about the origin:
// FCL's own test (test_fcl_capsule_capsule.cpp), and geometry. An old copy of that test prints 5.1
// for the turned one, by another convention of what a capsule's length is: we must not give that.
TEST(DistanceReference, Capsules) {
    const Segment first{{0, 0, -5}, {0, 0, 5}};
    const auto apart = [&](const Vec3& moved, const Vec3& along) {
        return both_ways(first, {moved - 5.0 * along, moved + 5.0 * along}) - 10.0;
    };
    const Vec3 z = Vec3::UnitZ();
    EXPECT_NEAR(apart({20.1, 0, 0}, z), 10.1, 1e-9);
    EXPECT_NEAR(apart({20, 20, 0}, z), std::sqrt(800.0) - 10.0, 1e-9);
    EXPECT_NEAR(apart({20, 20, 0}, z), 18.2842712475, 5e-11);
    EXPECT_NEAR(apart({0, 0, 20.1}, z), 0.1, 1e-9);
    EXPECT_NEAR(apart({0, 0, 25.1}, Vec3::UnitX()), 10.1, 1e-9);
    EXPECT_GT(apart({0, 0, 25.1}, Vec3::UnitX()), 5.2);
}

// DG-6. Two bars, radius 0.15625, length 8, crossing at 30° with axes 0.5 apart: 0.1875. A ball of
// 0.25 at (3, 4, 0) beside a bar of radius 1 on z: 3.75. Exact.
TEST(DistanceReference, CrossingBarsAndABallBesideABar) {
    const double c = std::cos(pi / 6.0);
    const double s = std::sin(pi / 6.0);
    const Segment first{{0, 0, -4}, {0, 0, 4}};
    const Segment second{{0.5, -4.0 * s, -4.0 * c}, {0.5, 4.0 * s, 4.0 * c}};
    EXPECT_NEAR(both_ways(first, second) - 2.0 * 0.15625, 0.1875, 1e-14);

    const Vec3 ball(3, 4, 0);
    const double on_bar = nearest_fraction(first, ball);
    EXPECT_NEAR((ball - first.at(on_bar)).norm() - 1.0 - 0.25, 3.75, 1e-14);
}

// DG-7. Boxes of edge 2 as triangles, exact: corner to corner, edge to face, and edge to edge.
// Only the tests' own mesh, and `closest_points` beneath it.
TEST(DistanceReference, BoxesOfTriangles) {
    const Vec3 half(1, 1, 1);
    const Eigen::Matrix3d square = Eigen::Matrix3d::Identity();
    const auto turned = [](const Vec3& about) {
        return Eigen::Matrix3d(Eigen::AngleAxisd(pi / 4.0, about));
    };
    const twins::TriangleMesh first = twins::box_mesh(Vec3::Zero(), square, half);
    const auto to_second = [&](const Vec3& centre, const Eigen::Matrix3d& axes) {
        return twins::slow_distance(first, twins::box_mesh(centre, axes, half));
    };
    EXPECT_NEAR(to_second({5, 5, 5}, square), 5.196152422707, 1e-12);
    EXPECT_NEAR(to_second({4, 0, 0}, turned(Vec3::UnitZ())), 1.585786437627, 1e-12);
    EXPECT_NEAR(to_second({4, 4, 0}, turned(Vec3::UnitX())), 2.552394684558, 1e-12);
}

// DG-9. A point 8 in from the axis it turns about, by half a degree, moves 2·r·sin(d/2) =
// 0.069812949 in along a path of r·d = 0.069813170 in (Mirtich's bound, 1996; recomputed). Here the
// upper ball of a rocker with an 8 in arm, and the bound the search relies on. Tolerance: half of
// the last digit.
TEST(DistanceReference, NoFartherThanItsPath) {
    const double r_mm = Length::inches(8.0).in_mm();
    const PlanarTrain plane{0.0, 0.0, r_mm, 400.0, 0.0, r_mm, -400.0, 90.0};
    const auto closing = Linkage::close(train_of(plane));
    ASSERT_TRUE(closing.linkage.has_value());
    double low = 0.0;
    double high = 5.0;
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (low + high) / 2.0;
        (crank_deg(plane, *closing.linkage->at(middle)) < 0.5 ? low : high) = middle;
    }
    const Pose start = *closing.linkage->at(0.0);
    const Pose turned = *closing.linkage->at(high);
    const double moved_mm = (turned.upper_ball_K - start.upper_ball_K).norm();
    const double path_mm = r_mm * radians(crank_deg(plane, turned));
    EXPECT_NEAR(Length::mm(moved_mm).in_inches(), 0.069812949, 5e-10);
    EXPECT_NEAR(Length::mm(path_mm).in_inches(), 0.069813170, 5e-10);

    // The linkage's bound on that path: never less, and not so wide that anything would pass.
    const auto swing = [&](const Pose& pose) {
        return (closing.linkage->rates(pose).upper_ball_K - closing.linkage->lifter_axis_K())
            .norm();
    };
    const auto bounds = closing.linkage->bounds(0.0, high, std::max(swing(start), swing(turned)));
    ASSERT_TRUE(bounds.has_value());
    EXPECT_GE(bounds->upper_ball_speed * high, path_mm * (1.0 - 1e-12));
    EXPECT_LE(bounds->upper_ball_speed * high, path_mm * 1.01);
}

// DG-10. A distance changes by no more than what is measured moves (the metric inequality): a
// point's by its own path, a segment's by the longer path of its two ends. Random; rounding below
// 1e-9 mm. The greatest share used must come near 1, or a distance that hardly moves would pass.
TEST(DistanceReference, DistancesChangeNoFasterThanTheRodMoves) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const auto any = [&](double size) {
        return Vec3(between(-size, size), between(-size, size), between(-size, size));
    };
    const Segment still{{-30, 4, -20}, {25, -9, 60}};
    const Bore bore{any(300.0), any(1.0).normalized(), 60.0, 9.0};
    double most_segments = 0.0;
    double most_wall = 0.0;
    double most_point = 0.0;
    int through = 0;
    for (int tried = 0; tried < 20000; ++tried) {
        const double far = between(0.01, 3.0);
        const Vec3 lower = bore.centre_K - 50.0 * bore.axis_K + any(7.0);
        const Vec3 upper = bore.centre_K + 50.0 * bore.axis_K + any(7.0);
        const Vec3 lower_move = any(far);
        const Vec3 upper_move = any(far);
        const double path = std::max(lower_move.norm(), upper_move.norm());

        const auto before = axis_to_wall(bore, lower, upper);
        const auto after = axis_to_wall(bore, lower + lower_move, upper + upper_move);
        if (before && after) {
            ++through;
            const double change = std::abs(after->distance_mm - before->distance_mm);
            ASSERT_LE(change, path + 1e-9);
            most_wall = std::max(most_wall, change / path);
        }
        const double point_change =
            std::abs(signed_distance_to_wall(bore, lower + 30.0 * bore.axis_K + lower_move) -
                     signed_distance_to_wall(bore, lower + 30.0 * bore.axis_K));
        ASSERT_LE(point_change, lower_move.norm() + 1e-9);
        most_point = std::max(most_point, point_change / lower_move.norm());

        const Segment moving{any(80.0), any(80.0)};
        const Segment moved{moving.a + lower_move, moving.b + upper_move};
        const double change = std::abs(closest_points(still, moved).distance -
                                       closest_points(still, moving).distance);
        ASSERT_LE(change, path + 1e-9);
        most_segments = std::max(most_segments, change / path);
    }
    std::cout << through << " through; shares used " << most_wall << ", " << most_point << ", "
              << most_segments << '\n';
    EXPECT_GT(through, 10000);
    EXPECT_GT(most_wall, 0.95);
    EXPECT_GT(most_point, 0.95);
    EXPECT_GT(most_segments, 0.95);
}

} // namespace
} // namespace rodway
