#include "tests/witness/cgal_witness.h"

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace rodway::witness {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Triangles = std::vector<Kernel::Triangle_3>;
using Tree = CGAL::AABB_tree<
    CGAL::AABB_traits<Kernel, CGAL::AABB_triangle_primitive<Kernel, Triangles::const_iterator>>>;

Kernel::Point_3 point(const Vec3& at) {
    return {at.x(), at.y(), at.z()};
}

Triangles triangles_of(const twins::TriangleMesh& mesh) {
    Triangles triangles;
    for (std::size_t each = 0; each < mesh.triangles.size(); ++each) {
        const auto [a, b, c] = twins::corners(mesh, each);
        triangles.emplace_back(point(a), point(b), point(c));
    }
    return triangles;
}

} // namespace

struct CgalMesh::Held {
    Triangles triangles;
    Tree tree;
};

CgalMesh::CgalMesh(const twins::TriangleMesh& mesh) : held_(std::make_unique<Held>()) {
    held_->triangles = triangles_of(mesh);
    held_->tree.rebuild(held_->triangles.cbegin(), held_->triangles.cend());
    held_->tree.accelerate_distance_queries();
}
CgalMesh::~CgalMesh() = default;

double CgalMesh::distance(const Vec3& at) const {
    return std::sqrt(held_->tree.squared_distance(point(at)));
}

double CgalMesh::distance(const Segment& segment) const {
    return distance(segment, [](double) { return 0.0; });
}

double CgalMesh::distance(const Segment& segment,
                          const std::function<double(double)>& radius) const {
    constexpr int looks = 400;
    constexpr double golden = 0.6180339887498949;
    const double step_mm = (segment.b - segment.a).norm() / looks;
    const auto at = [&](double fraction) {
        return distance(segment.at(fraction)) - radius(fraction);
    };
    std::vector<double> walked(looks + 1);
    for (std::size_t look = 0; look <= looks; ++look) {
        walked[look] = at(static_cast<double>(look) / looks);
    }
    double least = *std::min_element(walked.begin(), walked.end());
    for (std::size_t look = 0; look <= looks; ++look) {
        const double before = walked[look == 0 ? 0 : look - 1];
        const double after = walked[look == looks ? looks : look + 1];
        // Where the walk is level to 1e-12 it is already at the bottom.
        const bool dip = walked[look] <= before && walked[look] <= after &&
                         std::max(before, after) > walked[look] + 1e-12;
        // A distance changes no faster than the point moves.
        if (!dip || walked[look] - 1.5 * step_mm >= least) {
            continue;
        }
        double low = (static_cast<double>(look) - 1.0) / looks;
        double high = (static_cast<double>(look) + 1.0) / looks;
        low = std::max(low, 0.0);
        high = std::min(high, 1.0);
        for (int narrowing = 0; narrowing < 45; ++narrowing) {
            const double a = high - golden * (high - low);
            const double b = low + golden * (high - low);
            (at(a) < at(b) ? high : low) = at(a) < at(b) ? b : a;
        }
        least = std::min(least, at((low + high) / 2.0));
    }
    return least;
}

std::size_t CgalMesh::surfaces_met(const Segment& segment) const {
    return held_->tree.number_of_intersected_primitives(
        Kernel::Segment_3(point(segment.a), point(segment.b)));
}

} // namespace rodway::witness
