#pragma once

#include <array>
#include <random>

#include "tests/witness/facetted_bore.h"
#include "tests/witness/placed_rod.h"

namespace rodway::witness {

/// Our distance from a rod's axis to a wall, beside that to ever finer triangles.
struct FacetErrors {
    double ours = 0.0;
    std::array<double, 3> by_triangles{}; ///< 64, 128, 256 facets around
    std::array<double, 3> depth{};        ///< of the facets
    double all_triangles = 0.0;           ///< the coarsest, every triangle by itself
    double by_fcl = 0.0;                  ///< the coarsest, as a capsule

    /// Without the error that falls as the square of the facets' width.
    [[nodiscard]] double extrapolated() const {
        return by_triangles[2] + (by_triangles[2] - by_triangles[1]) / 3.0;
    }
};

/// Facets so laid that our nearest place on the wall falls on the same share of a facet every
/// time. CGAL measures.
[[nodiscard]] FacetErrors facet_errors(std::mt19937_64& random, const PlacedRod& placed);

} // namespace rodway::witness
