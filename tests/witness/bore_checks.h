#pragma once

#include <cstdint>

#include "tests/witness/placed_rod.h"

namespace rodway::witness {

// What every kind of bore has to pass. A bore's wall stands as triangles whose corners lie on the
// true wall; what lies between errs by the facets' depth, which falls fourfold when their number
// doubles. Each check prints its seed and what it found.

/// `axis_to_wall` in random poses against 32, 64 and 128 facets around, measured by CGAL, and at
/// the coarsest by FCL and triangle by triangle too: never apart by more than the facets' depth,
/// fourfold nearer with twice as many, and the same once that error is extrapolated away.
void expect_distances_agree(std::uint64_t seed, const Ways& ways, int poses);

/// `signed_distance_to_wall` at points anywhere near the bore: its size by CGAL's distance, its
/// sign by counting the surfaces that a straight way out meets.
void expect_points_agree(std::uint64_t seed, const Ways& ways);

/// A segment with an end beyond each end face either pierces the wall or goes through.
void expect_piercing_agrees(std::uint64_t seed, const Ways& ways);

} // namespace rodway::witness
