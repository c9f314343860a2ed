#include "render/train_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rodway {
namespace {

using Eigen::Vector2d;

constexpr double full_turn = 2.0 * std::numbers::pi;
constexpr int lobe_steps = 120;
/// A chord's middle lies under 0.02 mm inside the surface of a usual rod: half a pixel in the lens.
constexpr int rod_around = 32;

/// By the lifter's radius.
constexpr double lifter_roller_half_width = 0.42;

/// Lift and its slope by angle from the nose, in the lobe's own frame.
struct LobeAngle {
    double angle = 0.0;
    double lift = 0.0;
    double slope = 0.0; ///< by `angle`, mm/rad
    double curving = 0.0;
};

std::vector<LobeAngle> lobe_angles(const Lobe& lobe, double turns) {
    std::vector<LobeAngle> angles;
    for (int step = 0; step < lobe_steps; ++step) {
        const double angle = full_turn * step / lobe_steps - std::numbers::pi;
        // The follower goes round the lobe against the cam's turning.
        const LobeMotion motion = lobe.at(CamAngle::deg(degrees(-turns * angle)));
        angles.push_back({angle, motion.lift, -turns * motion.velocity, motion.acceleration});
    }
    return angles;
}

} // namespace

Eigen::Matrix4d frame_matrix(const Vec3& x, const Vec3& y, const Vec3& z, const Vec3& origin) {
    Eigen::Matrix4d matrix = Eigen::Matrix4d::Identity();
    matrix.block<3, 1>(0, 0) = x;
    matrix.block<3, 1>(0, 1) = y;
    matrix.block<3, 1>(0, 2) = z;
    matrix.block<3, 1>(0, 3) = origin;
    return matrix;
}

std::vector<Vector2d> limb_outline(double hub_radius, const Vector2d& end, double end_radius) {
    const double reach = std::max(end.norm(), hub_radius);
    const double towards = std::atan2(end.y(), end.x());
    const double tangent = std::acos(std::clamp((hub_radius - end_radius) / reach, -1.0, 1.0));
    std::vector<Vector2d> outline;
    constexpr int steps = 10;
    for (int step = 0; step <= steps; ++step) {
        const double angle = towards - tangent + 2.0 * tangent * step / steps;
        outline.push_back(end + end_radius * Vector2d(std::cos(angle), std::sin(angle)));
    }
    for (int step = 0; step <= steps; ++step) {
        const double angle = towards + tangent + (full_turn - 2.0 * tangent) * step / steps;
        outline.push_back(hub_radius * Vector2d(std::cos(angle), std::sin(angle)));
    }
    return outline;
}

Eigen::Matrix4d standing_at(const Vec3& origin, const Vec3& z) {
    const Vec3 x = z.unitOrthogonal();
    return frame_matrix(x, z.cross(x), z, origin);
}

Eigen::Matrix4d standing_at(const Vec3& origin, const Vec3& z, const Vec3& x_hint) {
    const Vec3 x = (x_hint - x_hint.dot(z) * z).normalized();
    return frame_matrix(x, z.cross(x), z, origin);
}

bool works_flat(const Lobe& lobe, double base_circle_radius_mm) {
    const std::vector<LobeAngle> angles = lobe_angles(lobe, 1.0);
    return std::all_of(angles.begin(), angles.end(), [&](const LobeAngle& at) {
        return base_circle_radius_mm + at.lift + at.curving > 0.0;
    });
}

// Flat face: the envelope of lines at distance h = base circle + lift, touched at h·u + h'·u⊥.
// Roller: its centre's path ρ·u, ρ = h + roller radius, moved in by that radius square to the path.
Mesh lobe_mesh(const Lobe& lobe, double base_circle_radius_mm, double half_width_mm, double turns,
               double roller_radius_mm) {
    std::vector<Vector2d> outline;
    for (const LobeAngle& at : lobe_angles(lobe, turns)) {
        const Vector2d outward(std::cos(at.angle), std::sin(at.angle));
        const Vector2d sideways(-outward.y(), outward.x());
        const double reach = base_circle_radius_mm + at.lift + roller_radius_mm;
        if (roller_radius_mm > 0.0) {
            const Vector2d square = (reach * outward - at.slope * sideways).normalized();
            outline.push_back(reach * outward - roller_radius_mm * square);
        } else {
            outline.push_back(reach * outward + at.slope * sideways);
        }
    }
    return drawn_out(outline, -half_width_mm, half_width_mm);
}

double upper_ball_radius_mm(const Pushrod& rod) {
    constexpr double usual_by_rod = 1.08;
    return rod.upper_ball_diameter_mm ? 0.5 * *rod.upper_ball_diameter_mm
                                      : usual_by_rod * rod_sections(rod).back().radius_to_mm;
}

double lower_ball_radius_mm(const Pushrod& rod) {
    constexpr double usual_by_rod = 1.08;
    return rod.lower_ball_diameter_mm ? 0.5 * *rod.lower_ball_diameter_mm
                                      : usual_by_rod * rod_sections(rod).front().radius_from_mm;
}

Mesh lifter_mesh(double seat_height_mm, double radius_mm, double roller_radius_mm,
                 std::optional<double> length_mm) {
    const double seat = seat_height_mm + 2.0;
    const double top = std::max(length_mm.value_or(seat), seat);
    const double foot = roller_radius_mm > 0.0 ? std::min(2.05 * roller_radius_mm, 0.6 * top) : 0.0;
    const double groove = radius_mm - 1.4;
    const double cup = 0.62 * radius_mm;
    const double groove_from = foot + 0.52 * (top - foot);
    const double groove_to = foot + 0.70 * (top - foot);
    Mesh mesh = turned({{0.0, foot},
                        {radius_mm - 0.6, foot},
                        {radius_mm, foot + 0.6},
                        {radius_mm, groove_from},
                        {groove, groove_from + 0.8},
                        {groove, groove_to - 0.8},
                        {radius_mm, groove_to},
                        {radius_mm, top - 1.0},
                        {radius_mm - 1.0, top},
                        {cup, top},
                        {cup, seat},
                        {0.75 * cup, seat - 5.0},
                        {0.0, seat - 5.5}},
                       24);
    if (roller_radius_mm > 0.0) {
        // Two legs hold the roller between them; their outline lies in the plane its axle is square
        // to.
        const std::vector<Vector2d> leg = limb_outline(
            0.72 * roller_radius_mm, {foot - roller_radius_mm + 0.2, 0.0}, 0.72 * roller_radius_mm);
        const Eigen::Matrix4f place =
            frame_matrix(Vec3::UnitZ(), -Vec3::UnitY(), Vec3::UnitX(), {0.0, 0.0, roller_radius_mm})
                .cast<float>();
        const double outer = 0.72 * radius_mm;
        const double inner = lifter_roller_half_width * radius_mm + 0.3;
        mesh.add(drawn_out(leg, inner, outer), place);
        mesh.add(drawn_out(leg, -outer, -inner), place);
    }
    return mesh;
}

Mesh lifter_roller_mesh(double radius_mm, double roller_radius_mm) {
    const double half = lifter_roller_half_width * radius_mm;
    Mesh mesh;
    const Eigen::Matrix4f place =
        frame_matrix(Vec3::UnitZ(), -Vec3::UnitY(), Vec3::UnitX(), {0.0, 0.0, roller_radius_mm})
            .cast<float>();
    mesh.add(cylinder(roller_radius_mm, -half, half, 28), place);
    mesh.add(cylinder(0.3 * roller_radius_mm, -0.76 * radius_mm, 0.76 * radius_mm, 12), place);
    return mesh;
}

// A straight rod's ends are drawn in usual proportions: a neck under each ball. Of a rod whose
// diameters are stated along its length nothing is added but its balls or cup.
Mesh rod_mesh(const Pushrod& rod) {
    const RoundSections sections = rod_sections(rod);
    const double length = rod.length_mm;
    const double foot_ball = lower_ball_radius_mm(rod);
    const double head_ball = upper_ball_radius_mm(rod);
    std::vector<TurnedPoint> outline;
    if (rod.profile.empty()) {
        const double radius = sections.front().radius_from_mm;
        const double neck = 0.72 * radius;
        outline = {{neck, 0.0}, {neck, foot_ball + 1.5}, {radius, foot_ball + 3.5}};
        if (!rod.cup_at_top) {
            outline.insert(outline.end(), {{radius, length - head_ball - 3.5},
                                           {neck, length - head_ball - 1.5},
                                           {neck, length}});
        }
    } else {
        for (const RoundSection& section : sections) {
            outline.push_back({section.radius_from_mm, section.from_mm});
            outline.push_back({section.radius_to_mm, section.to_mm});
        }
    }
    const double cup_mm = rod.cup_depth_mm.value_or(0.8 * head_ball);
    if (rod.cup_at_top) {
        // Round the adjuster's ball, up to the lip.
        const double bottom = length - head_ball;
        const double radius = sections.back().radius_to_mm;
        const double outside = std::max(radius, rod.cup_outside_mm.value_or(2.56 * head_ball) / 2);
        while (!outline.empty() && outline.back().z_mm > bottom - 6.0) {
            outline.pop_back();
        }
        outline.insert(outline.end(), {{radius, bottom - 6.0},
                                       {outside, bottom - 2.0},
                                       {outside, bottom + cup_mm},
                                       {1.02 * head_ball, bottom + cup_mm},
                                       {0.7 * head_ball, bottom + 0.3 * head_ball},
                                       {0.0, bottom}});
    }
    Mesh mesh;
    mesh.add(turned(outline, rod_around));
    mesh.add(ball(foot_ball, 16));
    if (!rod.cup_at_top) {
        Eigen::Matrix4f at_top = Eigen::Matrix4f::Identity();
        at_top(2, 3) = static_cast<float>(length);
        mesh.add(ball(head_ball, 16), at_top);
    }
    return mesh;
}

Mesh valve_mesh(double head_radius_mm, const UsualSizes& sizes) {
    const double stem = sizes.stem_radius;
    const double foot = -sizes.valve_length;
    const double tulip = 0.62 * head_radius_mm;
    return turned({{0.0, foot},
                   {head_radius_mm, foot},
                   {head_radius_mm, foot + 1.5},
                   {head_radius_mm - 2.0, foot + 3.2},
                   {0.62 * head_radius_mm, foot + 5.4},
                   {0.40 * head_radius_mm, foot + 8.5},
                   {stem + 0.8, foot + tulip},
                   {stem, foot + tulip + 9.0},
                   {stem, -0.8},
                   {stem - 0.8, 0.0},
                   {0.0, 0.0}},
                  24);
}

Mesh retainer_mesh(const UsualSizes& sizes) {
    const double z = -retainer_below_tip_mm;
    const double rim = sizes.spring_radius + 0.6 * sizes.spring_wire_radius;
    return turned({{0.0, z - 6.5},
                   {0.55 * rim, z - 6.5},
                   {0.6 * rim, z - 3.0},
                   {rim, z - 3.0},
                   {rim, z - 0.8},
                   {rim - 1.0, z},
                   {0.62 * rim, z + 0.4},
                   {0.5 * rim, z + 1.4},
                   {sizes.stem_radius, z + 1.4}},
                  28);
}

namespace {

/// A height of the swept space: a share of the rod's length, and how thick the rod is there.
struct SweepLevel {
    double along = 0.0;
    double radius_mm = 0.0;
};

std::vector<SweepLevel> sweep_levels(const RoundSections& rod) {
    constexpr int each = 3;
    const double length = rod.back().to_mm;
    std::vector<SweepLevel> levels;
    for (const RoundSection& section : rod) {
        for (int step = 0; step <= each; ++step) {
            const double station =
                section.from_mm + (section.to_mm - section.from_mm) * step / each;
            levels.push_back({station / length, section.radius_at(station)});
        }
    }
    return levels;
}

} // namespace

Mesh rod_sweep_mesh(const Linkage& linkage, double full_lift_mm, const Pushrod& rod) {
    constexpr int lifts = 24;
    constexpr std::uint32_t directions = 28;
    std::vector<Pose> poses;
    for (int at = 0; at <= lifts; ++at) {
        const std::optional<Pose> pose = linkage.at(full_lift_mm * at / lifts);
        if (!pose) {
            return {};
        }
        poses.push_back(*pose);
    }
    const std::vector<SweepLevel> levels = sweep_levels(rod_sections(rod));
    const Vec3 way = (poses[lifts / 2].upper_ball_K - poses[lifts / 2].lower_ball_K).normalized();
    const Eigen::Matrix4d frame = standing_at(Vec3::Zero(), way);
    Mesh mesh;
    for (const SweepLevel& level : levels) {
        for (std::uint32_t at = 0; at <= directions; ++at) {
            const double angle = full_turn * at / directions;
            const Vec3 outward = std::cos(angle) * frame.block<3, 1>(0, 0) +
                                 std::sin(angle) * frame.block<3, 1>(0, 1);
            // The farthest place of the rod's axis this way carries the hull.
            Vec3 farthest = poses.front().lower_ball_K;
            double reach = -1e300;
            for (const Pose& pose : poses) {
                const Vec3 axis =
                    pose.lower_ball_K + level.along * (pose.upper_ball_K - pose.lower_ball_K);
                if (axis.dot(outward) > reach) {
                    reach = axis.dot(outward);
                    farthest = axis;
                }
            }
            mesh.vertices.push_back(
                {(farthest + level.radius_mm * outward).cast<float>(), outward.cast<float>()});
        }
    }
    for (std::uint32_t level = 0; level + 1 < levels.size(); ++level) {
        for (std::uint32_t at = 0; at < directions; ++at) {
            const std::uint32_t here = level * (directions + 1) + at;
            const std::uint32_t above = here + directions + 1;
            mesh.triangles.insert(mesh.triangles.end(),
                                  {here, here + 1, above + 1, here, above + 1, above});
        }
    }
    return mesh;
}

Mesh piston_mesh(double bore_mm) {
    const double radius = 0.5 * bore_mm - 0.5;
    const double groove = radius - 2.0;
    return turned({{0.0, -30.0},
                   {radius - 4.0, -30.0},
                   {radius, -30.0},
                   {radius, -15.0},
                   {groove, -15.0},
                   {groove, -13.0},
                   {radius, -13.0},
                   {radius, -8.0},
                   {groove, -8.0},
                   {groove, -6.5},
                   {radius, -6.5},
                   {radius, -0.8},
                   {radius - 0.8, 0.0},
                   {0.0, 0.0}},
                  40);
}

Mesh cam_gear_mesh(double root_radius_mm, double half_width_mm) {
    constexpr int teeth = 40;
    constexpr double tooth_mm = 3.2;
    std::vector<Vector2d> outline;
    for (int tooth = 0; tooth < teeth; ++tooth) {
        for (const auto& [share, out] : {std::pair{0.0, 0.0}, std::pair{0.22, 1.0},
                                         std::pair{0.48, 1.0}, std::pair{0.70, 0.0}}) {
            const double angle = full_turn * (tooth + share) / teeth;
            outline.push_back((root_radius_mm + out * tooth_mm) *
                              Vector2d(std::cos(angle), std::sin(angle)));
        }
    }
    return drawn_out(outline, -half_width_mm, half_width_mm);
}

Mesh turning_arrow_mesh(double radius_mm, double wire_mm) {
    // Three quarters of a ring, and a point that is three wires wide.
    constexpr int steps = 40;
    constexpr int section_steps = 6;
    constexpr double to = 0.75 * full_turn;
    Mesh mesh;
    for (int step = 0; step <= steps; ++step) {
        const double angle = to * step / steps;
        const Vec3 outward(std::cos(angle), std::sin(angle), 0.0);
        for (int side = 0; side <= section_steps; ++side) {
            const double turn = full_turn * side / section_steps;
            const Vec3 normal = std::cos(turn) * outward + std::sin(turn) * Vec3::UnitZ();
            mesh.vertices.push_back(
                {(radius_mm * outward + wire_mm * normal).cast<float>(), normal.cast<float>()});
        }
    }
    constexpr std::uint32_t row = section_steps + 1;
    for (std::uint32_t step = 0; step < steps; ++step) {
        for (std::uint32_t side = 0; side < section_steps; ++side) {
            const std::uint32_t at = step * row + side;
            mesh.triangles.insert(mesh.triangles.end(),
                                  {at, at + row, at + row + 1, at, at + row + 1, at + 1});
        }
    }
    const Vec3 end(radius_mm * std::cos(to), radius_mm * std::sin(to), 0.0);
    const Vec3 ahead(-std::sin(to), std::cos(to), 0.0);
    mesh.add(bar(end, end + 8.0 * wire_mm * ahead, 3.2 * wire_mm, 0.01, 16));
    return mesh;
}

} // namespace rodway
