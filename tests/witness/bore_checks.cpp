#include "tests/witness/bore_checks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>

#include "tests/witness/cgal_witness.h"
#include "tests/witness/facetted_bore.h"
#include "tests/witness/fcl_witness.h"

namespace rodway::witness {
namespace {

/// The extrapolation leaves errors of the facets' width to the fourth power, and, where two places
/// are all but equally near, up to a facet's depth: such poses are loose.
constexpr double extrapolated_mm = 2e-5;

/// Our distance from a rod's axis to a wall, beside that to ever finer triangles.
struct FacetErrors {
    double ours = 0.0;
    std::array<double, 3> by_triangles{};
    std::array<double, 3> depth{}; ///< of the facets
    double all_triangles = 0.0;    ///< the coarsest, every triangle by itself
    double by_fcl = 0.0;           ///< the coarsest, to the rod as a capsule

    /// Without the error that falls as the square of the facets' width.
    [[nodiscard]] double extrapolated() const {
        return by_triangles[2] + (by_triangles[2] - by_triangles[1]) / 3.0;
    }
};

/// Facets so laid that our nearest place on the wall falls on the same share of a facet every time.
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
        facets.around = 32 << finer;
        facets.over_edge = 8 << finer;
        const twins::TriangleMesh mesh = facetted_bore(placed.bore, facets);
        errors.by_triangles[finer] = CgalMesh(mesh).distance(placed.axis);
        errors.depth[finer] = facet_depth_mm(placed.bore, facets);
        if (finer == 0) {
            errors.all_triangles = twins::slow_distance(mesh, placed.axis);
            const double thin = errors.by_triangles[0] / 3.0;
            const auto capsule =
                FclMesh(mesh).distance(Capsule{placed.axis.a, placed.axis.b, thin});
            EXPECT_TRUE(capsule.has_value());
            errors.by_fcl = capsule.value_or(0.0) + thin;
        }
    }
    return errors;
}

/// What a run of random poses showed.
struct Tally {
    int poses = 0;
    std::array<double, 3> error{}; ///< summed, of each fineness
    double worst_extrapolated = 0.0;
    int loose = 0; ///< poses whose extrapolation is farther off than expected

    void add(const FacetErrors& found) {
        ++poses;
        for (std::size_t finer = 0; finer < 3; ++finer) {
            error[finer] += std::abs(found.ours - found.by_triangles[finer]);
        }
        const double off = std::abs(found.extrapolated() - found.ours);
        worst_extrapolated = std::max(worst_extrapolated, off);
        loose += off > extrapolated_mm;
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

/// The bore's own ways across: the long way first, if it has one.
struct Across {
    explicit Across(const Bore& bore)
        : x(bore.half_straight_mm > 0.0 ? bore.long_way_K : Vec3(bore.axis_K.unitOrthogonal())),
          y(bore.axis_K.cross(x)) {}
    Vec3 x, y;
};

/// A place at some height, up to `share` times the bore's half widths away from its axis.
Vec3 place(std::mt19937_64& random, const Bore& bore, double height, double share) {
    const Across across(bore);
    const double x = between(random, -share, share) * (bore.bore_radius_mm + bore.half_straight_mm);
    const double y = between(random, -share, share) * bore.bore_radius_mm;
    return bore.centre_K + height * bore.axis_K + x * across.x + y * across.y;
}

bool rounded(const Bore& bore) {
    return bore.top_edge_radius_mm > 0.0 || bore.bottom_edge_radius_mm > 0.0;
}

Facets fine(double out_mm) {
    Facets facets;
    facets.around = 128;
    facets.over_edge = 16;
    facets.out_mm = out_mm;
    return facets;
}

/// Least of our signed distance on a segment, by a walk.
double walked(const Bore& bore, const Segment& axis) {
    constexpr int looks = 4000;
    double least = signed_distance_to_wall(bore, axis.a);
    for (int look = 1; look <= looks; ++look) {
        const double fraction = static_cast<double>(look) / looks;
        least = std::min(least, signed_distance_to_wall(bore, axis.at(fraction)));
    }
    return least;
}

} // namespace

void expect_distances_agree(std::uint64_t seed, const Ways& ways, int poses) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    Tally tally;
    for (int pose = 0; pose < poses; ++pose) {
        const PlacedRod placed = random_rod(random, ways);
        const FacetErrors found = facet_errors(random, placed);
        for (std::size_t finer = 0; finer < 3; ++finer) {
            // A rounded edge's facets stand inside the material, a rounded side's inside the bore.
            const double short_by = found.ours - found.by_triangles[finer];
            EXPECT_LE(short_by, found.depth[finer] + 1e-9) << "pose " << pose;
            EXPECT_GE(short_by, ways.rounded_ends ? -found.depth[finer] : -1e-9) << "pose " << pose;
        }
        // CGAL walks, so it may end above the least, by what golden section leaves; FCL steps.
        EXPECT_NEAR(found.by_triangles[0], found.all_triangles, 1e-8) << "pose " << pose;
        EXPECT_NEAR(found.by_fcl, found.all_triangles, 1e-6) << "pose " << pose;
        tally.add(found);
    }
    std::cout << tally;
    // Where a rounding or an obround's rounded side begins, a facet is cut short and keeps no
    // share.
    const bool regular = !ways.rounded_ends && !ways.obround;
    EXPECT_NEAR(tally.falls(0), 4.0, regular ? 0.05 : 0.5);
    EXPECT_NEAR(tally.falls(1), 4.0, regular ? 0.02 : 0.5);
    EXPECT_LE(tally.loose, ways.rounded_ends ? poses / 4 : regular ? poses / 50 : poses / 10);
}

void expect_points_agree(std::uint64_t seed, const Ways& ways) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    constexpr int bores = 10;
    constexpr int points = 1000;
    int in_material = 0;
    int at_end_face = 0;
    for (int made = 0; made < bores; ++made) {
        const Bore bore = random_bore(random, ways);
        const CgalMesh mesh(facetted_bore(bore, fine(80.0)));
        const double depth = facet_depth_mm(bore, fine(80.0));
        for (int each = 0; each < points; ++each) {
            const double height = between(random, -0.7, 0.7) * bore.length_mm;
            const Vec3 point = place(random, bore, height, 1.8);
            const double ours = signed_distance_to_wall(bore, point);
            const double by_cgal = mesh.distance(point);
            ASSERT_NEAR(std::abs(ours), by_cgal, depth + 1e-9);
            // End faces are flat: nearest to one, nothing is lost to facets.
            const double edge = std::max(bore.top_edge_radius_mm, bore.bottom_edge_radius_mm);
            const double past_end = std::abs(height) - bore.length_mm / 2.0;
            if (past_end > 0.0 && inside_outline_mm(bore, point) < -edge - depth) {
                ++at_end_face;
                ASSERT_NEAR(ours, by_cgal, 1e-9);
            }
            if (std::abs(ours) > depth) {
                const bool odd = mesh.surfaces_met({point, point + 200.0 * bore.axis_K}) % 2 == 1;
                ASSERT_EQ(ours < 0.0, odd);
                in_material += odd;
            }
        }
    }
    std::cout << in_material << " in the material, " << at_end_face << " over an end face, of "
              << bores * points << '\n';
    EXPECT_GT(in_material, 1000);
    EXPECT_GT(at_end_face, 500);
}

void expect_piercing_agrees(std::uint64_t seed, const Ways& ways) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int through = 0;
    int pierced = 0;
    int too_near = 0;
    for (int made = 0; made < 20; ++made) {
        const Bore bore = random_bore(random, ways);
        const double half = bore.length_mm / 2.0;
        const CgalMesh mesh(facetted_bore(bore, fine(200.0)));
        for (int each = 0; each < 200; ++each) {
            const Vec3 bottom = place(random, bore, -half, 1.3);
            const Vec3 top = place(random, bore, half, 1.3);
            const Vec3 way = (top - bottom).normalized();
            const Segment axis{bottom - between(random, 0.1, 40.0) * way,
                               top + between(random, 0.1, 40.0) * way};
            const double least = walked(bore, axis);
            // Sharp: an axis inside the outline at both ends is inside all the way.
            const double inside = rounded(bore) ? least
                                                : std::min(inside_outline_mm(bore, bottom),
                                                           inside_outline_mm(bore, top));
            if (std::abs(inside) <= (rounded(bore) ? 0.05 : facet_depth_mm(bore, fine(200.0)))) {
                ++too_near;
                continue;
            }
            const bool by_cgal = mesh.surfaces_met(axis) > 0;
            ASSERT_EQ(by_cgal, !axis_to_wall(bore, axis.a, axis.b).has_value()) << inside;
            // The walk's steps, under 0.05 mm, may pass over a corner cut shorter than that.
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

} // namespace rodway::witness
