#include "render/mesh.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/base/assert.h"

namespace rodway {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using Eigen::Vector3f;

constexpr double full_turn = 2.0 * std::numbers::pi;

/// Neighbouring faces that turn more than 30° keep an edge between them.
const double smooth_cosine = std::cos(std::numbers::pi / 6.0);

std::uint32_t add_vertex(Mesh& mesh, const Vector3d& at, const Vector3d& normal) {
    mesh.vertices.push_back({at.cast<float>(), normal.normalized().cast<float>()});
    return static_cast<std::uint32_t>(mesh.vertices.size() - 1);
}

void add_triangle(Mesh& mesh, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    mesh.triangles.insert(mesh.triangles.end(), {a, b, c});
}

/// Two triangles a-b-c, a-c-d.
void add_quad(Mesh& mesh, std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) {
    add_triangle(mesh, a, b, c);
    add_triangle(mesh, a, c, d);
}

/// Joins rows of vertices, each `sides` quads wide, that fill a whole mesh.
void add_rows(Mesh& mesh, int steps, int sides) {
    const auto row = static_cast<std::uint32_t>(sides + 1);
    for (std::uint32_t step = 0; step < static_cast<std::uint32_t>(steps); ++step) {
        for (std::uint32_t side = 0; side < static_cast<std::uint32_t>(sides); ++side) {
            const std::uint32_t at = step * row + side;
            add_quad(mesh, at, at + row, at + row + 1, at + 1);
        }
    }
}

/// One normal for an edge's end: the mean with the neighbour where the outline is smooth there.
Vector2d shared_normal(const Vector2d& own, const Vector2d& neighbour) {
    return own.dot(neighbour) > smooth_cosine ? Vector2d((own + neighbour).normalized()) : own;
}

/// Directions of the steps of a turn about z, the first one again at the end.
std::vector<Vector2d> directions(int around) {
    std::vector<Vector2d> ways;
    ways.reserve(static_cast<std::size_t>(around) + 1);
    for (int step = 0; step <= around; ++step) {
        const double angle = full_turn * step / around;
        ways.emplace_back(std::cos(angle), std::sin(angle));
    }
    return ways;
}

/// A band of quads between two loops of points about z; its normals, in (radius, z), have length 1.
void add_turned_band(Mesh& mesh, const TurnedPoint& from, const TurnedPoint& to,
                     const Vector2d& from_normal, const Vector2d& to_normal,
                     const std::vector<Vector2d>& ways) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    const auto place = [&](const TurnedPoint& point, const Vector2d& normal, const Vector2d& way) {
        const Vector3d at(point.radius_mm * way.x(), point.radius_mm * way.y(), point.z_mm);
        const Vector3d out(normal.x() * way.x(), normal.x() * way.y(), normal.y());
        mesh.vertices.push_back({at.cast<float>(), out.cast<float>()});
    };
    for (const Vector2d& way : ways) {
        place(from, from_normal, way);
        place(to, to_normal, way);
    }
    for (std::uint32_t step = 0; step + 1 < ways.size(); ++step) {
        const std::uint32_t at = first + 2 * step;
        if (from.radius_mm > 0.0) {
            add_triangle(mesh, at, at + 2, at + 3);
        }
        if (to.radius_mm > 0.0) {
            add_triangle(mesh, at, at + 3, at + 1);
        }
    }
}

/// Two unit vectors that make a right-handed frame with `z`.
std::pair<Vector3d, Vector3d> beside(const Vector3d& z) {
    const Vector3d x = z.unitOrthogonal();
    return {x, z.cross(x)};
}

} // namespace

void Mesh::add(const Mesh& other, const Eigen::Matrix4f& moved_by) {
    const auto first = static_cast<std::uint32_t>(vertices.size());
    const Eigen::Matrix3f turn = moved_by.topLeftCorner<3, 3>();
    const Vector3f move = moved_by.topRightCorner<3, 1>();
    for (const MeshVertex& vertex : other.vertices) {
        vertices.push_back({turn * vertex.at + move, turn * vertex.normal});
    }
    for (const std::uint32_t index : other.triangles) {
        triangles.push_back(first + index);
    }
}

Mesh turned(const std::vector<TurnedPoint>& outline, int around) {
    RODWAY_ASSERT(outline.size() >= 2 && around >= 3);
    std::vector<Vector2d> normals; // of each edge, in (radius, z)
    for (std::size_t at = 0; at + 1 < outline.size(); ++at) {
        const Vector2d along(outline[at + 1].radius_mm - outline[at].radius_mm,
                             outline[at + 1].z_mm - outline[at].z_mm);
        normals.push_back(Vector2d(along.y(), -along.x()).normalized());
    }
    const std::vector<Vector2d> ways = directions(around);
    Mesh mesh;
    mesh.vertices.reserve(2 * normals.size() * ways.size());
    mesh.triangles.reserve(6 * normals.size() * ways.size());
    for (std::size_t at = 0; at < normals.size(); ++at) {
        const Vector2d start = at > 0 ? shared_normal(normals[at], normals[at - 1]) : normals[at];
        const Vector2d end =
            at + 1 < normals.size() ? shared_normal(normals[at], normals[at + 1]) : normals[at];
        add_turned_band(mesh, outline[at], outline[at + 1], start, end, ways);
    }
    return mesh;
}

Mesh ball(double radius_mm, int around) {
    const int stacks = std::max(4, around / 2);
    std::vector<TurnedPoint> outline;
    for (int step = 0; step <= stacks; ++step) {
        const double angle = std::numbers::pi * step / stacks;
        const bool pole = step == 0 || step == stacks;
        outline.push_back({pole ? 0.0 : radius_mm * std::sin(angle), -radius_mm * std::cos(angle)});
    }
    return turned(outline, around);
}

Mesh cylinder(double radius_mm, double from_mm, double to_mm, int around) {
    return turned({{0.0, from_mm}, {radius_mm, from_mm}, {radius_mm, to_mm}, {0.0, to_mm}}, around);
}

Mesh pipe(double radius_mm, double from_mm, double to_mm, int around) {
    return turned({{radius_mm, from_mm}, {radius_mm, to_mm}}, around);
}

Mesh ring(double radius_mm, double section_radius_mm, double z_mm, int around, int section_steps) {
    Mesh mesh;
    for (int step = 0; step <= around; ++step) {
        const double angle = full_turn * step / around;
        const Vector3d outward(std::cos(angle), std::sin(angle), 0.0);
        for (int side = 0; side <= section_steps; ++side) {
            const double turn = full_turn * side / section_steps;
            const Vector3d normal = std::cos(turn) * outward + std::sin(turn) * Vector3d::UnitZ();
            add_vertex(mesh,
                       radius_mm * outward + section_radius_mm * normal + Vector3d(0.0, 0.0, z_mm),
                       normal);
        }
    }
    add_rows(mesh, around, section_steps);
    return mesh;
}

Mesh coil(double radius_mm, double wire_radius_mm, double length_mm, double turns, int around) {
    constexpr int section_steps = 6;
    const double rise = length_mm - 2.0 * wire_radius_mm;
    const int steps = static_cast<int>(std::ceil(turns * around));
    Mesh mesh;
    for (int step = 0; step <= steps; ++step) {
        const double along = static_cast<double>(step) / steps;
        const double angle = full_turn * turns * along;
        const Vector3d outward(std::cos(angle), std::sin(angle), 0.0);
        const Vector3d middle =
            radius_mm * outward + Vector3d(0.0, 0.0, wire_radius_mm + rise * along);
        for (int side = 0; side <= section_steps; ++side) {
            const double turn = full_turn * side / section_steps;
            const Vector3d normal = std::cos(turn) * outward + std::sin(turn) * Vector3d::UnitZ();
            Vector3d at = middle + wire_radius_mm * normal;
            at.z() /= length_mm;
            // What the inverse transpose of the scaling turns into `normal`.
            add_vertex(mesh, at, {normal.x(), normal.y(), normal.z() * length_mm});
        }
    }
    add_rows(mesh, steps, section_steps);
    return mesh;
}

Mesh drawn_out(const std::vector<Vector2d>& outline, double from_mm, double to_mm) {
    const std::size_t count = outline.size();
    RODWAY_ASSERT(count >= 3);
    const auto edge_normal = [&](std::size_t at) {
        const Vector2d along = outline[(at + 1) % count] - outline[at % count];
        return Vector2d(along.y(), -along.x()).normalized();
    };
    Mesh mesh;
    for (std::size_t at = 0; at < count; ++at) {
        const Vector2d own = edge_normal(at);
        const Vector2d start = shared_normal(own, edge_normal(at + count - 1));
        const Vector2d end = shared_normal(own, edge_normal(at + 1));
        const Vector2d& a = outline[at];
        const Vector2d& b = outline[(at + 1) % count];
        const std::uint32_t first =
            add_vertex(mesh, {a.x(), a.y(), from_mm}, {start.x(), start.y(), 0.0});
        add_vertex(mesh, {b.x(), b.y(), from_mm}, {end.x(), end.y(), 0.0});
        add_vertex(mesh, {b.x(), b.y(), to_mm}, {end.x(), end.y(), 0.0});
        add_vertex(mesh, {a.x(), a.y(), to_mm}, {start.x(), start.y(), 0.0});
        add_quad(mesh, first, first + 1, first + 2, first + 3);
    }
    for (const double z : {from_mm, to_mm}) {
        const Vector3d normal(0.0, 0.0, z == to_mm ? 1.0 : -1.0);
        const std::uint32_t middle = add_vertex(mesh, {0.0, 0.0, z}, normal);
        for (const Vector2d& point : outline) {
            add_vertex(mesh, {point.x(), point.y(), z}, normal);
        }
        for (std::uint32_t at = 0; at < count; ++at) {
            const std::uint32_t here = middle + 1 + at;
            const std::uint32_t next = middle + 1 + (at + 1) % static_cast<std::uint32_t>(count);
            if (z == to_mm) {
                add_triangle(mesh, middle, here, next);
            } else {
                add_triangle(mesh, middle, next, here);
            }
        }
    }
    return mesh;
}

Mesh bar(const Vector3d& from, const Vector3d& to, double from_radius_mm, double to_radius_mm,
         int around) {
    const double length = (to - from).norm();
    RODWAY_ASSERT(length > 0.0);
    const Vector3d z = (to - from) / length;
    const auto [x, y] = beside(z);
    Eigen::Matrix4f place = Eigen::Matrix4f::Identity();
    place.col(0).head<3>() = x.cast<float>();
    place.col(1).head<3>() = y.cast<float>();
    place.col(2).head<3>() = z.cast<float>();
    place.col(3).head<3>() = from.cast<float>();
    Mesh mesh;
    mesh.add(
        turned({{0.0, 0.0}, {from_radius_mm, 0.0}, {to_radius_mm, length}, {0.0, length}}, around),
        place);
    return mesh;
}

} // namespace rodway
