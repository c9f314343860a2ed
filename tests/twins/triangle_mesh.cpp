#include "tests/twins/triangle_mesh.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rodway::twins {
namespace {

constexpr double far_away = std::numeric_limits<double>::infinity();

Segment edge(const Triangle& triangle, std::size_t from) {
    return {triangle[from], triangle[(from + 1) % 3]};
}

Vec3 normal(const Triangle& triangle) {
    return (triangle[1] - triangle[0]).cross(triangle[2] - triangle[0]).normalized();
}

/// Whether a point of the triangle's plane lies on its inner side of all three edges.
bool within(const Triangle& triangle, const Vec3& point) {
    const Vec3 n = normal(triangle);
    for (std::size_t from = 0; from < 3; ++from) {
        const Segment side = edge(triangle, from);
        if ((side.b - side.a).cross(point - side.a).dot(n) < 0.0) {
            return false;
        }
    }
    return true;
}

double to_point(const Triangle& triangle, const Vec3& point) {
    const Vec3 n = normal(triangle);
    const double height = (point - triangle[0]).dot(n);
    if (within(triangle, point - height * n)) {
        return std::abs(height);
    }
    double least = far_away;
    for (std::size_t from = 0; from < 3; ++from) {
        least = std::min(least, closest_points({point, point}, edge(triangle, from)).distance);
    }
    return least;
}

bool pierced(const Triangle& triangle, const Segment& segment) {
    const Vec3 n = normal(triangle);
    const double above = (segment.a - triangle[0]).dot(n);
    const double below = (segment.b - triangle[0]).dot(n);
    if ((above > 0.0) == (below > 0.0)) {
        return false;
    }
    return within(triangle, segment.at(above / (above - below)));
}

double to_segment(const Triangle& triangle, const Segment& segment) {
    if (pierced(triangle, segment)) {
        return 0.0;
    }
    double least = std::min(to_point(triangle, segment.a), to_point(triangle, segment.b));
    for (std::size_t from = 0; from < 3; ++from) {
        least = std::min(least, closest_points(edge(triangle, from), segment).distance);
    }
    return least;
}

template <typename Shape, typename Measure>
double least_over(const TriangleMesh& mesh, const Shape& shape, const Measure& measure) {
    double least = far_away;
    for (std::size_t each = 0; each < mesh.triangles.size(); ++each) {
        least = std::min(least, measure(corners(mesh, each), shape));
    }
    return least;
}

} // namespace

Triangle corners(const TriangleMesh& mesh, std::size_t triangle) {
    const auto& [a, b, c] = mesh.triangles[triangle];
    return {mesh.points[a], mesh.points[b], mesh.points[c]};
}

double slow_distance(const TriangleMesh& mesh, const Vec3& point) {
    return least_over(mesh, point, to_point);
}

double slow_distance(const TriangleMesh& mesh, const Segment& segment) {
    return least_over(mesh, segment, to_segment);
}

double slow_distance(const TriangleMesh& first, const TriangleMesh& second) {
    // Two triangles are nearest at two edges, or at a corner of one and the inside of the other;
    // an edge of one against the whole of the other covers both.
    const auto edges_of = [](const TriangleMesh& edges, const TriangleMesh& surface) {
        double least = far_away;
        for (std::size_t each = 0; each < edges.triangles.size(); ++each) {
            for (std::size_t from = 0; from < 3; ++from) {
                least = std::min(least, slow_distance(surface, edge(corners(edges, each), from)));
            }
        }
        return least;
    };
    return std::min(edges_of(first, second), edges_of(second, first));
}

TriangleMesh box_mesh(const Vec3& centre, const Eigen::Matrix3d& axes, const Vec3& half_sizes_mm) {
    TriangleMesh box;
    for (std::size_t corner = 0; corner < 8; ++corner) {
        const Vec3 sides((corner & 1U) != 0 ? 1.0 : -1.0, (corner & 2U) != 0 ? 1.0 : -1.0,
                         (corner & 4U) != 0 ? 1.0 : -1.0);
        box.points.push_back(centre + axes * sides.cwiseProduct(half_sizes_mm));
    }
    // Each face as its corners in turn.
    const std::array<std::size_t, 4> faces[] = {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4},
                                                {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}};
    for (const auto& [a, b, c, d] : faces) {
        box.triangles.push_back({a, b, c});
        box.triangles.push_back({a, c, d});
    }
    return box;
}

} // namespace rodway::twins
