// A bore's wall as triangles, and three outside measures of it: FCL and CGAL, which know nothing of
// this project, and every triangle by itself. The triangles' corners lie on the true wall; what
// lies between errs by the facets' depth, which falls fourfold when their number doubles. So must
// the distance from ours.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>
#include <numbers>

#include "tests/witness/cgal_witness.h"
#include "tests/witness/facet_errors.h"
#include "tests/witness/fcl_witness.h"

namespace rodway::witness {
namespace {

constexpr std::uint64_t seed = 20260513;

/// What a run of random poses showed.
struct Tally {
    int poses = 0;
    std::array<double, 3> error{}; ///< summed, of each fineness
    double worst_extrapolated = 0.0;
    int loose = 0; ///< poses whose extrapolation is farther off than `expected`

    void add(const FacetErrors& found, double expected) {
        ++poses;
        for (std::size_t finer = 0; finer < 3; ++finer) {
            error[finer] += std::abs(found.ours - found.by_triangles[finer]);
        }
        const double off = std::abs(found.extrapolated() - found.ours);
        worst_extrapolated = std::max(worst_extrapolated, off);
        loose += off > expected;
    }
    [[nodiscard]] double falls(std::size_t finer) const { return error[finer] / error[finer + 1]; }
};

std::ostream& operator<<(std::ostream& out, const Tally& tally) {
    return out << tally.poses << " poses; mean error mm " << tally.error[0] / tally.poses << ", "
               << tally.error[1] / tally.poses << ", " << tally.error[2] / tally.poses
               << "; falls by " << tally.falls(0) << " and " << tally.falls(1)
               << "; extrapolated within " << tally.worst_extrapolated << ", " << tally.loose
               << " loose\n";
}

/// The extrapolation leaves errors of the facets' width to the fourth power, and, where two places
/// are all but equally near, up to a facet's depth.
constexpr double extrapolated_mm = 2e-5;

Tally tally(std::uint64_t with_seed, const Ways& ways, int poses) {
    std::cout << "seed " << with_seed << '\n';
    std::mt19937_64 random(with_seed);
    Tally tally;
    for (int pose = 0; pose < poses; ++pose) {
        const PlacedRod placed = random_rod(random, ways);
        const FacetErrors found = facet_errors(random, placed);
        for (std::size_t finer = 0; finer < 3; ++finer) {
            // A rounded edge's facets stand inside the material, a rounded side's inside the bore.
            EXPECT_LE(found.ours - found.by_triangles[finer], found.depth[finer] + 1e-9) << pose;
            EXPECT_GE(found.ours - found.by_triangles[finer],
                      ways.rounded_ends ? -found.depth[finer] : -1e-9)
                << pose;
        }
        // CGAL walks, so it may end above the least, by what golden section leaves; FCL steps.
        EXPECT_NEAR(found.by_triangles[0], found.all_triangles, 1e-8) << pose;
        EXPECT_NEAR(found.by_fcl, found.all_triangles, 1e-6) << pose;
        tally.add(found, extrapolated_mm);
    }
    std::cout << tally;
    return tally;
}

void expect_fourfold(const Tally& found) {
    EXPECT_NEAR(found.falls(0), 4.0, 0.2);
    EXPECT_NEAR(found.falls(1), 4.0, 0.1);
    EXPECT_LE(found.loose, found.poses / 50);
}

TEST(BoreWitness, RoundSharp) {
    expect_fourfold(tally(seed, {}, 100));
}

TEST(BoreWitness, RoundSharpLeaningFar) {
    Ways ways;
    ways.tilt_deg = 35.0;
    ways.most_beyond_mm = 40.0;
    expect_fourfold(tally(seed + 1, ways, 50));
}

// Every facet ties: the error is the facets' depth itself, R·(1 - cos(π/N)).
TEST(BoreWitness, ConcentricRod) {
    Bore bore;
    bore.centre_K = Vec3(12, -80, 210);
    bore.axis_K = Vec3(0.1, -0.3, 1.0).normalized();
    bore.length_mm = 60.0;
    bore.bore_radius_mm = 7.5;
    const Segment rod{bore.centre_K - 70.0 * bore.axis_K, bore.centre_K + 90.0 * bore.axis_K};
    const double ours = axis_to_wall(bore, rod.a, rod.b)->distance_mm;
    EXPECT_NEAR(ours, 7.5, 1e-12);
    for (const int around : {16, 32, 64, 128}) {
        Facets facets;
        facets.around = around;
        facets.out_mm = 80.0;
        const twins::TriangleMesh mesh = facetted_bore(bore, facets);
        const double depth = 7.5 * (1.0 - std::cos(std::numbers::pi / around));
        EXPECT_NEAR(facet_depth_mm(bore, facets), depth, 1e-15);
        EXPECT_NEAR(ours - twins::slow_distance(mesh, rod), depth, 1e-10);
        EXPECT_NEAR(ours - CgalMesh(mesh).distance(rod), depth, 1e-10);
        const auto capsule = FclMesh(mesh).distance(Capsule{rod.a, rod.b, 4.0});
        ASSERT_TRUE(capsule.has_value());
        EXPECT_NEAR(ours - 4.0 - *capsule, depth, 1e-6);
    }
}

// Points anywhere near the bore, in the material and out of it: |signed distance| is CGAL's
// distance but for the facets' depth; nearest to an end face it is CGAL's exactly.
TEST(BoreWitness, PointsInAndOutOfTheMaterial) {
    std::cout << "seed " << seed + 2 << '\n';
    std::mt19937_64 random(seed + 2);
    int inside = 0;
    int exact = 0;
    constexpr int bores = 20;
    constexpr int points = 500;
    for (int made = 0; made < bores; ++made) {
        const Bore bore = random_bore(random, {});
        Facets facets;
        facets.around = 256;
        facets.out_mm = 80.0;
        const CgalMesh mesh(facetted_bore(bore, facets));
        const double depth = facet_depth_mm(bore, facets);
        for (int each = 0; each < points; ++each) {
            const Vec3 point = bore.centre_K +
                               between(random, -0.7, 0.7) * bore.length_mm * bore.axis_K +
                               between(random, 0.0, 2.0) * bore.bore_radius_mm *
                                   bore.axis_K.cross(random_direction(random));
            const double ours = signed_distance_to_wall(bore, point);
            const double by_cgal = mesh.distance(point);
            ASSERT_NEAR(std::abs(ours), by_cgal, depth + 1e-9);
            const double past_end =
                std::abs((point - bore.centre_K).dot(bore.axis_K)) - bore.length_mm / 2.0;
            if (std::abs(ours - past_end) < 1e-12) {
                ++exact;
                ASSERT_NEAR(std::abs(ours), by_cgal, 1e-9);
            }
            // In the material: a line straight out through the nearer end face meets one surface.
            const bool beyond = past_end > 0.0;
            const bool in_bore = inside_outline_mm(bore, point) > 0.0;
            if (std::abs(inside_outline_mm(bore, point)) > depth) {
                const bool in_material =
                    !beyond && mesh.pierced_by({point, point + 200.0 * bore.axis_K});
                ASSERT_EQ(ours < 0.0, in_material) << in_bore;
                inside += in_material;
            }
        }
    }
    std::cout << inside << " in the material, " << exact << " nearest to an end face, of "
              << bores * points << '\n';
    EXPECT_GT(inside, 1000);
    EXPECT_GT(exact, 500);
}

// A segment with an end beyond each end face either goes through the bore, and pierces nothing, or
// is in the wall somewhere, and pierces it. Ours must say the same, and find the rod's axis in the
// material where it does.
TEST(BoreWitness, AnAxisThatPiercesTheWallDoesNotGoThrough) {
    std::cout << "seed " << seed + 3 << '\n';
    std::mt19937_64 random(seed + 3);
    int through = 0;
    int pierced = 0;
    int too_near = 0;
    for (int made = 0; made < 40; ++made) {
        const Bore bore = random_bore(random, {});
        const double half = bore.length_mm / 2.0;
        const double r = bore.bore_radius_mm;
        Facets facets;
        facets.around = 256;
        facets.out_mm = 200.0;
        const CgalMesh mesh(facetted_bore(bore, facets));
        for (int each = 0; each < 100; ++each) {
            const auto crossing = [&](double height) -> Vec3 {
                return bore.centre_K + height * bore.axis_K +
                       between(random, 0.0, 1.6) * r * bore.axis_K.cross(random_direction(random));
            };
            const Vec3 bottom = crossing(-half);
            const Vec3 top = crossing(half);
            const Vec3 way = (top - bottom).normalized();
            const Segment axis{bottom - between(random, 0.1, 40.0) * way,
                               top + between(random, 0.1, 40.0) * way};
            const double inside =
                std::min(inside_outline_mm(bore, bottom), inside_outline_mm(bore, top));
            if (std::abs(inside) <= facet_depth_mm(bore, facets)) {
                ++too_near;
                continue;
            }
            const bool by_cgal = mesh.pierced_by(axis);
            ASSERT_EQ(by_cgal, !axis_to_wall(bore, axis.a, axis.b).has_value());
            double least = signed_distance_to_wall(bore, axis.a);
            for (int look = 0; look <= 4000; ++look) {
                least = std::min(least, signed_distance_to_wall(bore, axis.at(look / 4000.0)));
            }
            // The walk's steps are under 0.05 mm, and may step over a corner cut that short.
            if (std::abs(inside) > 0.05) {
                ASSERT_EQ(by_cgal, least < 0.0) << inside;
            }
            (by_cgal ? pierced : through) += 1;
        }
    }
    std::cout << through << " through, " << pierced << " pierced, " << too_near
              << " too near to tell\n";
    EXPECT_GT(through, 500);
    EXPECT_GT(pierced, 500);
}

// A rod that ends in the bore pierces nothing, and yet doesn't go through.
TEST(BoreWitness, ARodThatEndsInTheBorePiercesNothing) {
    const Bore bore{Vec3::Zero(), Vec3::UnitZ(), 60.0, 7.0};
    Facets facets;
    facets.out_mm = 80.0;
    const CgalMesh mesh(facetted_bore(bore, facets));
    const Segment axis{{1, 0, -50}, {2, 1, 20}};
    EXPECT_FALSE(mesh.pierced_by(axis));
    EXPECT_FALSE(axis_to_wall(bore, axis.a, axis.b).has_value());
}

} // namespace
} // namespace rodway::witness
