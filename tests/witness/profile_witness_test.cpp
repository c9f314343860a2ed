// Rods with tapers and steps in every kind of bore: CGAL measures each point of the axis to the
// triangles, and the radius there is taken off.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <limits>

#include "core/geometry/rod_to_bore.h"
#include "tests/witness/cgal_witness.h"
#include "tests/witness/facetted_bore.h"
#include "tests/witness/placed_rod.h"

namespace rodway::witness {
namespace {

constexpr std::uint64_t seed = 20260517;

/// Straight, then a taper, then straight, then a step: thickest in the middle.
RoundSections random_profile(std::mt19937_64& random, double length) {
    const double thin = between(random, 1.0, 2.0);
    const double from = between(random, 0.1, 0.4) * length;
    const double to = from + between(random, 0.05, 0.2) * length;
    // Tapers of no more than 0.4, as `CgalMesh::distance` asks.
    const double thick = std::min(between(random, 2.0, 4.0), thin + 0.4 * (to - from));
    const double step = to + between(random, 0.05, 0.3) * length;
    return {{0.0, from, thin, thin},
            {from, to, thin, thick},
            {to, step, thick, thick},
            {step, length, thin, thin}};
}

/// Section by section, so that a step falls between two walks.
double least_by_cgal(const CgalMesh& mesh, const Segment& axis, const RoundSections& rod) {
    const double length = (axis.b - axis.a).norm();
    double least = std::numeric_limits<double>::infinity();
    for (const RoundSection& section : rod) {
        const Segment part{axis.at(section.from_mm / length), axis.at(section.to_mm / length)};
        const auto radius = [&](double fraction) {
            return section.radius_from_mm +
                   fraction * (section.radius_to_mm - section.radius_from_mm);
        };
        least = std::min(least, mesh.distance(part, radius));
    }
    return least;
}

// 1e-8 mm: what golden section leaves. Facets: their depth.
TEST(ProfileWitness, TapersAndStepsInEveryKindOfBore) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    double error = 0.0;
    int on_taper_or_step = 0;
    constexpr int poses = 80;
    for (int pose = 0; pose < poses; ++pose) {
        Ways ways;
        ways.obround = pose % 2 == 1;
        ways.rounded_ends = pose % 4 >= 2;
        const PlacedRod placed = random_rod(random, ways);
        const double length = (placed.axis.b - placed.axis.a).norm();
        const RoundSections rod = random_profile(random, length);
        const auto ours = rod_to_bore(placed.bore, placed.axis.a, placed.axis.b, rod);
        ASSERT_TRUE(ours.has_value()) << "pose " << pose;
        Facets facets;
        facets.around = 128;
        facets.over_edge = 16;
        facets.out_mm = 80.0;
        facets.near_K = ours->p_wall_K;
        const CgalMesh mesh(facetted_bore(placed.bore, facets));
        const double by_cgal = least_by_cgal(mesh, placed.axis, rod);
        const double depth = facet_depth_mm(placed.bore, facets);
        EXPECT_LE(ours->clearance_mm - by_cgal, depth + 1e-8) << "pose " << pose;
        EXPECT_GE(ours->clearance_mm - by_cgal, ways.rounded_ends ? -depth : -1e-8)
            << "pose " << pose;
        error += std::abs(ours->clearance_mm - by_cgal);
        on_taper_or_step += ours->taper != 0.0 || ours->held_by_rod;
    }
    std::cout << poses << " poses, mean error " << error / poses << " mm, " << on_taper_or_step
              << " nearest on a taper or at a section's end\n";
    EXPECT_GT(on_taper_or_step, poses / 10);
}

} // namespace
} // namespace rodway::witness
