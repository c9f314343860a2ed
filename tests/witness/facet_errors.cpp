#include "tests/witness/facet_errors.h"

#include <gtest/gtest.h>

#include "tests/witness/cgal_witness.h"
#include "tests/witness/fcl_witness.h"

namespace rodway::witness {

FacetErrors facet_errors(std::mt19937_64& random, const PlacedRod& placed) {
    FacetErrors errors;
    const auto ours = axis_to_wall(placed.bore, placed.axis.a, placed.axis.b);
    EXPECT_TRUE(ours.has_value());
    if (!ours) {
        return errors;
    }
    errors.ours = ours->distance_mm;
    Facets facets;
    facets.out_mm = 80.0;
    facets.near_K = ours->p_wall_K;
    facets.share_around = between(random, 0.0, 1.0);
    facets.share_over_edge = between(random, 0.0, 1.0);
    for (std::size_t finer = 0; finer < 3; ++finer) {
        facets.around = 64 << finer;
        facets.over_edge = 16 << finer;
        const twins::TriangleMesh mesh = facetted_bore(placed.bore, facets);
        errors.by_triangles[finer] = CgalMesh(mesh).distance(placed.axis);
        errors.depth[finer] = facet_depth_mm(placed.bore, facets);
        if (finer == 0) {
            errors.all_triangles = twins::slow_distance(mesh, placed.axis);
            const double thin = errors.by_triangles[0] / 3.0;
            const auto capsule = FclMesh(mesh).distance({placed.axis.a, placed.axis.b, thin});
            EXPECT_TRUE(capsule.has_value());
            errors.by_fcl = capsule.value_or(0.0) + thin;
        }
    }
    return errors;
}

} // namespace rodway::witness
