// DG-8: three segments in a pipe of 320 triangles, the example mesh `pipe.off` that comes with
// CGAL; distances by two codes that aren't ours. That file's 160 corners are a regular pipe of 40
// facets, inner radius 0.170624, outer 0.311022, length 1, printed to six digits: they lie within
// 1.6e-6 of the one made here, which decides the tolerance. Nothing of the file itself is kept
// here. Lengths have no unit there; millimetres here.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/witness/cgal_witness.h"
#include "tests/witness/facetted_bore.h"
#include "tests/witness/fcl_witness.h"

namespace rodway::witness {
namespace {

Bore pipe() {
    Bore bore;
    bore.axis_K = Vec3::UnitY();
    bore.length_mm = 1.0;
    bore.bore_radius_mm = 0.170624;
    return bore;
}

Facets forty() {
    Facets facets;
    facets.around = 40;
    facets.out_mm = 0.311022 - 0.170624;
    facets.near_K = Vec3::UnitX();
    facets.share_around = 0.0;
    return facets;
}

struct Row {
    Segment segment;
    double distance;
};
const Row rows[] = {{{{0.05, -0.4, 0}, {0.02, 0.4, 0.03}}, 0.120252673458},
                    {{{0, -0.45, 0}, {0, 0.45, 0}}, 0.170097840331},
                    {{{-0.06, -0.5, 0.04}, {0.08, 0.5, -0.02}}, 0.087639383030}};

TEST(Pipe, ThreeSegmentsByThreeCodes) {
    const twins::TriangleMesh mesh = facetted_bore(pipe(), forty());
    const FclMesh by_fcl(mesh);
    const CgalMesh by_cgal(mesh);
    for (const Row& row : rows) {
        const double slow = twins::slow_distance(mesh, row.segment);
        EXPECT_NEAR(slow, row.distance, 2e-6);
        EXPECT_NEAR(by_cgal.distance(row.segment), slow, 1e-10); // golden section
        const auto capsule = by_fcl.distance(Capsule{row.segment.a, row.segment.b, 0.03});
        ASSERT_TRUE(capsule.has_value());
        EXPECT_NEAR(*capsule + 0.03, slow, 1e-6); // FCL's own steps
    }
}

// The same by the round bore. The facets stand R·(1 - cos 4.5°) = 0.000526 inside it. Rods A and B
// end inside the pipe, which is no way through: there the ends' own distances decide. C runs from
// end plane to end plane.
TEST(Pipe, ThreeSegmentsByTheRoundBore) {
    const double depth = facet_depth_mm(pipe(), forty());
    EXPECT_NEAR(depth, 0.000526, 5e-7);
    for (const Row& row : rows) {
        const double at_ends = std::min(signed_distance_to_wall(pipe(), row.segment.a),
                                        signed_distance_to_wall(pipe(), row.segment.b));
        EXPECT_GE(at_ends, row.distance - 2e-6);
        EXPECT_LE(at_ends, row.distance + depth + 2e-6);
    }
    EXPECT_FALSE(axis_to_wall(pipe(), rows[0].segment.a, rows[0].segment.b).has_value());
    EXPECT_FALSE(axis_to_wall(pipe(), rows[1].segment.a, rows[1].segment.b).has_value());
    const auto through = axis_to_wall(pipe(), rows[2].segment.a, rows[2].segment.b);
    ASSERT_TRUE(through.has_value());
    EXPECT_GE(through->distance_mm, rows[2].distance - 2e-6);
    EXPECT_LE(through->distance_mm, rows[2].distance + depth + 2e-6);
}

} // namespace
} // namespace rodway::witness
