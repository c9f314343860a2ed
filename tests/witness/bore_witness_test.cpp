// A round bore with sharp ends, beside FCL and CGAL, which know nothing of this project.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/witness/bore_checks.h"
#include "tests/witness/cgal_witness.h"
#include "tests/witness/facetted_bore.h"
#include "tests/witness/fcl_witness.h"

namespace rodway::witness {
namespace {

constexpr std::uint64_t seed = 20260513;

TEST(BoreWitness, DistancesInRandomPoses) {
    expect_distances_agree(seed, {}, 100);
}

TEST(BoreWitness, DistancesLeaningFar) {
    Ways ways;
    ways.tilt_deg = 35.0;
    ways.most_beyond_mm = 40.0;
    expect_distances_agree(seed + 1, ways, 50);
}

TEST(BoreWitness, PointsInAndOutOfTheMaterial) {
    expect_points_agree(seed + 2, {});
}

TEST(BoreWitness, AnAxisThatPiercesTheWallDoesNotGoThrough) {
    expect_piercing_agrees(seed + 3, {});
}

// Every facet ties: the error is the facets' depth itself, R·(1 - cos(π/N)).
TEST(BoreWitness, ConcentricRod) {
    Bore bore;
    bore.centre_K = Vec3(12, -80, 210);
    bore.axis_K = Vec3(0.1, -0.3, 1.0).normalized();
    bore.length_mm = 60.0;
    bore.bore_radius_mm = 7.5;
    const Segment rod{bore.centre_K - 70.0 * bore.axis_K, bore.centre_K + 90.0 * bore.axis_K};
    const auto ours = axis_to_wall(bore, rod.a, rod.b);
    ASSERT_TRUE(ours.has_value());
    EXPECT_NEAR(ours->distance_mm, 7.5, 1e-12);
    for (const int around : {16, 32, 64, 128}) {
        Facets facets;
        facets.around = around;
        facets.out_mm = 80.0;
        const twins::TriangleMesh mesh = facetted_bore(bore, facets);
        const double depth = 7.5 * (1.0 - std::cos(std::numbers::pi / around));
        EXPECT_NEAR(facet_depth_mm(bore, facets), depth, 1e-15);
        EXPECT_NEAR(ours->distance_mm - twins::slow_distance(mesh, rod), depth, 1e-10);
        EXPECT_NEAR(ours->distance_mm - CgalMesh(mesh).distance(rod), depth, 1e-10);
        const auto capsule = FclMesh(mesh).distance(Capsule{rod.a, rod.b, 4.0});
        ASSERT_TRUE(capsule.has_value());
        EXPECT_NEAR(ours->distance_mm - 4.0 - *capsule, depth, 1e-6); // FCL's own steps
    }
}

// A rod that ends in the bore pierces nothing, and yet doesn't go through.
TEST(BoreWitness, ARodThatEndsInTheBorePiercesNothing) {
    const Bore bore{Vec3::Zero(), Vec3::UnitZ(), 60.0, 7.0};
    Facets facets;
    facets.out_mm = 80.0;
    const CgalMesh mesh(facetted_bore(bore, facets));
    const Segment axis{{1, 0, -50}, {2, 1, 20}};
    EXPECT_EQ(mesh.surfaces_met(axis), 0U);
    EXPECT_FALSE(axis_to_wall(bore, axis.a, axis.b).has_value());
}

} // namespace
} // namespace rodway::witness
