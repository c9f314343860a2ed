#pragma once

#include "core/geometry/bore.h"
#include "tests/twins/triangle_mesh.h"

namespace rodway::witness {

/// How a bore's wall is cut into triangles. All corners lie on the true wall, so that the rounded
/// sides' facets stand inside the bore and a rounded edge's inside the material.
struct Facets {
    int around = 32;     ///< chords in a whole turn of the rounded sides
    int over_edge = 8;   ///< chords in the quarter turn of a rounded edge
    double out_mm = 0.0; ///< how far beyond the bore the end faces reach

    /// A place on the wall, and where on its facet it is to lie, 0 to 1 each way: the same share
    /// whatever the number of facets makes errors fall as the square of their width.
    Vec3 near_K = Vec3::Zero();
    double share_around = 0.5;
    double share_over_edge = 0.5;
};

/// The bore's inside, its edges and its two end faces.
[[nodiscard]] twins::TriangleMesh facetted_bore(const Bore& bore, const Facets& facets);

/// How far apart the facets and the true wall are at most: R·(1 - cos(π/N)) on the rounded sides
/// (R + e where an edge is rounded), e·(1 - cos) over an edge.
[[nodiscard]] double facet_depth_mm(const Bore& bore, const Facets& facets);

} // namespace rodway::witness
