#include "render/passage_parts.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "render/train_parts.h"

namespace rodway {
namespace {

using Eigen::Vector2d;

constexpr double quarter_turn = 0.5 * std::numbers::pi;
constexpr int steps_around = 40;
constexpr int rounding_steps = 4;
/// Wire of a mouth, outside the wall: the wall's own edge stays where the bore has it.
constexpr double rim_wire_mm = 0.55;
constexpr double casting_round_hole_mm = 5.0;

/// A place on the outline of a bore and the way out of it.
struct OutlinePoint {
    Vector2d at; ///< of the bore's own wall
    Vector2d out;
};

std::vector<OutlinePoint> outline_of(const Bore& bore, int around) {
    std::vector<OutlinePoint> outline;
    for (const double side : {1.0, -1.0}) {
        const double from = side > 0.0 ? -quarter_turn : quarter_turn;
        const int steps = around / 2;
        for (int step = 0; step <= steps; ++step) {
            const double angle = from + 2.0 * quarter_turn * step / steps;
            const Vector2d out(std::cos(angle), std::sin(angle));
            outline.push_back(
                {Vector2d(side * bore.half_straight_mm, 0.0) + bore.bore_radius_mm * out, out});
        }
    }
    outline.push_back(outline.front());
    return outline;
}

/// Out of the bore, along it: square to one edge of a profile.
Vector2d profile_normal(const ProfilePoint& from, const ProfilePoint& to) {
    return Vector2d(to.z_mm - from.z_mm, from.out_mm - to.out_mm).normalized();
}

/// The rounding of an edge, from the bore's wall out to the mouth; `towards`: +1 at the top.
void add_rounding(std::vector<ProfilePoint>& profile, double radius, double mouth_z,
                  double towards) {
    if (radius <= 0.0) {
        profile.push_back({0.0, mouth_z});
        return;
    }
    for (int step = 0; step <= rounding_steps; ++step) {
        const int at = towards > 0.0 ? step : rounding_steps - step;
        const double angle = quarter_turn * at / rounding_steps;
        profile.push_back({radius * (1.0 - std::cos(angle)),
                           mouth_z - towards * radius * (1.0 - std::sin(angle))});
    }
}

} // namespace

Mesh round_bore_mesh(const Bore& bore, const std::vector<ProfilePoint>& profile, int around) {
    const std::vector<OutlinePoint> outline = outline_of(bore, around);
    const auto smooth = [](const Vector2d& own, const Vector2d& other) {
        constexpr double smooth_cosine = 0.866;
        return own.dot(other) > smooth_cosine ? Vector2d((own + other).normalized()) : own;
    };
    Mesh mesh;
    for (std::size_t edge = 0; edge + 1 < profile.size(); ++edge) {
        const Vector2d own = profile_normal(profile[edge], profile[edge + 1]);
        const Vector2d first =
            edge > 0 ? smooth(own, profile_normal(profile[edge - 1], profile[edge])) : own;
        const Vector2d last =
            edge + 2 < profile.size()
                ? smooth(own, profile_normal(profile[edge + 1], profile[edge + 2]))
                : own;
        const auto begin = static_cast<std::uint32_t>(mesh.vertices.size());
        for (const OutlinePoint& point : outline) {
            for (const auto& [place, normal] :
                 {std::pair{profile[edge], first}, std::pair{profile[edge + 1], last}}) {
                const Vector2d at = point.at + place.out_mm * point.out;
                const Vec3 way(normal.x() * point.out.x(), normal.x() * point.out.y(), normal.y());
                mesh.vertices.push_back(
                    {Vec3(at.x(), at.y(), place.z_mm).cast<float>(), way.cast<float>()});
            }
        }
        for (std::uint32_t step = 0; step + 1 < outline.size(); ++step) {
            const std::uint32_t at = begin + 2 * step;
            mesh.triangles.insert(mesh.triangles.end(), {at, at + 2, at + 3, at, at + 3, at + 1});
        }
    }
    return mesh;
}

Mesh passage_mesh(const Bore& bore, double wall_mm) {
    const double half = 0.5 * bore.length_mm;
    // Down the inside, its normals towards the axis.
    std::vector<ProfilePoint> profile;
    add_rounding(profile, bore.bottom_edge_radius_mm, -half, -1.0);
    add_rounding(profile, bore.top_edge_radius_mm, half, 1.0);
    std::vector<ProfilePoint> down(profile.rbegin(), profile.rend());
    const double outside = std::max({wall_mm, bore.top_edge_radius_mm, bore.bottom_edge_radius_mm});
    if (wall_mm > 0.0) {
        down.insert(down.end(), {{outside, -half}, {outside, half}, down.front()});
    }
    return round_bore_mesh(bore, down, steps_around);
}

Mesh rims_mesh(const Bore& bore) {
    constexpr int section_steps = 4; // thinner than a pixel or two, most of the time
    Mesh mesh;
    for (const auto& [z, edge] : {std::pair{-0.5 * bore.length_mm, bore.bottom_edge_radius_mm},
                                  std::pair{0.5 * bore.length_mm, bore.top_edge_radius_mm}}) {
        std::vector<ProfilePoint> section;
        for (int step = 0; step <= section_steps; ++step) {
            const double angle = 4.0 * quarter_turn * step / section_steps;
            section.push_back({edge + rim_wire_mm + rim_wire_mm * std::cos(angle),
                               z + rim_wire_mm * std::sin(angle)});
        }
        mesh.add(round_bore_mesh(bore, section, steps_around));
    }
    return mesh;
}

double drawn_wall_mm(const Passage& passage) {
    const bool cast =
        passage.kind == PassageKind::drilled_hole || passage.kind == PassageKind::guide_slot;
    return passage.wall_mm.value_or(cast ? casting_round_hole_mm : 0.0);
}

Eigen::Matrix4d standing_as(const Bore& bore) {
    return bore.half_straight_mm > 0.0 ? standing_at(bore.centre_K, bore.axis_K, bore.long_way_K)
                                       : standing_at(bore.centre_K, bore.axis_K);
}

} // namespace rodway
