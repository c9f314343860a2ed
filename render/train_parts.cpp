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

Eigen::Matrix4d frame_matrix(const Vec3& x, const Vec3& y, const Vec3& z, const Vec3& origin) {
    Eigen::Matrix4d matrix = Eigen::Matrix4d::Identity();
    matrix.block<3, 1>(0, 0) = x;
    matrix.block<3, 1>(0, 1) = y;
    matrix.block<3, 1>(0, 2) = z;
    matrix.block<3, 1>(0, 3) = origin;
    return matrix;
}

/// The outline round two circles and their common tangents, the larger about the origin.
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

/// The plane a rocker turns in: x towards its tip, z along its shaft.
struct RockerPlane {
    Vec3 x, y, z;

    explicit RockerPlane(const RockerShape& shape) : z(shape.axis_K) {
        const Vec3 across = shape.tip_arm_K - shape.tip_arm_K.dot(z) * z;
        x = across.norm() > 1e-6 ? across.normalized() : z.unitOrthogonal();
        y = z.cross(x);
    }
    [[nodiscard]] Vector2d across(const Vec3& arm) const { return {arm.dot(x), arm.dot(y)}; }
    [[nodiscard]] double along(const Vec3& arm) const { return arm.dot(z); }
    [[nodiscard]] Eigen::Matrix4f matrix(const Vec3& origin = Vec3::Zero()) const {
        return frame_matrix(x, y, z, origin).cast<float>();
    }
};

/// By the lifter's radius.
constexpr double lifter_roller_half_width = 0.42;

constexpr double roller_half_width = 4.2;
constexpr double boss_radius = 7.2;

/// The boss the adjuster is screwed into: its middle, above the ball.
Vec3 boss_arm_K(const RockerShape& shape, double rod_radius_mm) {
    return shape.ball_arm_K - (rod_radius_mm + 8.0) * shape.adjuster_axis_K;
}

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

Mesh lifter_mesh(double seat_height_mm, double radius_mm, double roller_radius_mm) {
    const double top = seat_height_mm + 2.0;
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
                        {0.75 * cup, top - 5.0},
                        {0.0, top - 5.5}},
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

Mesh rod_mesh(double length_mm, double radius_mm) {
    const double ball_radius = 1.08 * radius_mm;
    const double neck = 0.72 * radius_mm;
    Mesh mesh;
    const double shoulder = ball_radius + 1.5;
    mesh.add(turned({{neck, 0.0},
                     {neck, shoulder},
                     {radius_mm, shoulder + 2.0},
                     {radius_mm, length_mm - shoulder - 2.0},
                     {neck, length_mm - shoulder},
                     {neck, length_mm}},
                    rod_around));
    Eigen::Matrix4f at_top = Eigen::Matrix4f::Identity();
    at_top(2, 3) = static_cast<float>(length_mm);
    const Mesh end = ball(ball_radius, 18);
    mesh.add(end);
    mesh.add(end, at_top);
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

Mesh rocker_mesh(const RockerShape& shape, double rod_radius_mm, const UsualSizes& sizes) {
    const RockerPlane plane(shape);
    const Vec3 boss = boss_arm_K(shape, rod_radius_mm);
    const double hub_radius = sizes.shaft_radius + 4.2;
    const double tip_along = plane.along(shape.tip_arm_K);
    const double ball_along = plane.along(boss);
    const double half = sizes.rocker_half_width;
    Mesh local;
    local.add(turned({{sizes.shaft_radius, std::min({-half, ball_along - 6.0, tip_along - 7.0})},
                      {hub_radius, std::min({-half, ball_along - 6.0, tip_along - 7.0})},
                      {hub_radius, std::max({half, ball_along + 6.0, tip_along + 7.0})},
                      {sizes.shaft_radius, std::max({half, ball_along + 6.0, tip_along + 7.0})}},
                     32));
    // Two cheeks hold the roller between them; a web behind it joins them.
    const Vector2d tip = plane.across(shape.tip_arm_K);
    const std::vector<Vector2d> cheek =
        limb_outline(0.86 * hub_radius, tip, 0.72 * sizes.roller_radius);
    for (const double side : {-1.0, 1.0}) {
        const double inner = tip_along + side * roller_half_width;
        const double outer = tip_along + side * (roller_half_width + 2.6);
        local.add(drawn_out(cheek, std::min(inner, outer), std::max(inner, outer)));
    }
    const double web_reach =
        std::max(0.0, 1.0 - (sizes.roller_radius + 2.5) / std::max(tip.norm(), 1.0));
    local.add(drawn_out(limb_outline(0.8 * hub_radius, web_reach * tip, 0.62 * sizes.roller_radius),
                        tip_along - roller_half_width, tip_along + roller_half_width));
    local.add(drawn_out(limb_outline(0.9 * hub_radius, plane.across(boss), 0.8 * boss_radius),
                        ball_along - 0.75 * boss_radius, ball_along + 0.75 * boss_radius));
    Mesh mesh;
    mesh.add(local, plane.matrix());
    mesh.add(bar(boss - 5.0 * shape.adjuster_axis_K, boss + 5.0 * shape.adjuster_axis_K,
                 boss_radius, boss_radius, 20));
    return mesh;
}

Mesh roller_mesh(const RockerShape& shape, const UsualSizes& sizes) {
    const RockerPlane plane(shape);
    Mesh mesh;
    mesh.add(cylinder(sizes.roller_radius, -roller_half_width + 0.3, roller_half_width - 0.3, 24),
             plane.matrix(shape.tip_arm_K));
    mesh.add(
        cylinder(0.36 * sizes.roller_radius, -roller_half_width - 3.2, roller_half_width + 3.2, 14),
        plane.matrix(shape.tip_arm_K));
    return mesh;
}

Mesh adjuster_mesh(const RockerShape& shape, double rod_radius_mm) {
    const Vec3 boss = boss_arm_K(shape, rod_radius_mm);
    const Vec3 up = -shape.adjuster_axis_K;
    Mesh mesh = bar(shape.ball_arm_K + 0.35 * rod_radius_mm * up, boss + 16.0 * up, 4.6, 4.6, 16);
    // The cup over the rod's ball.
    mesh.add(bar(shape.ball_arm_K + 0.1 * rod_radius_mm * up,
                 shape.ball_arm_K + (rod_radius_mm + 2.0) * up, 1.35 * rod_radius_mm, 4.6, 18));
    mesh.add(bar(boss + 5.0 * up, boss + 10.5 * up, 1.05 * boss_radius, 1.05 * boss_radius, 6));
    return mesh;
}

Mesh rims_mesh(double bore_radius_mm, double length_mm) {
    constexpr double edge = 0.55;
    Mesh mesh = ring(bore_radius_mm + edge, edge, -0.5 * length_mm, 44);
    mesh.add(ring(bore_radius_mm + edge, edge, 0.5 * length_mm, 44));
    return mesh;
}

Mesh rod_sweep_mesh(const Linkage& linkage, double full_lift_mm, double rod_radius_mm) {
    constexpr int lifts = 24;
    constexpr std::uint32_t levels = 12;
    constexpr std::uint32_t directions = 28;
    std::vector<Pose> poses;
    for (int at = 0; at <= lifts; ++at) {
        const std::optional<Pose> pose = linkage.at(full_lift_mm * at / lifts);
        if (!pose) {
            return {};
        }
        poses.push_back(*pose);
    }
    const Vec3 rod = (poses[lifts / 2].upper_ball_K - poses[lifts / 2].lower_ball_K).normalized();
    const Eigen::Matrix4d frame = standing_at(Vec3::Zero(), rod);
    Mesh mesh;
    for (std::uint32_t level = 0; level <= levels; ++level) {
        const double along = static_cast<double>(level) / levels;
        for (std::uint32_t at = 0; at <= directions; ++at) {
            const double angle = full_turn * at / directions;
            const Vec3 outward = std::cos(angle) * frame.block<3, 1>(0, 0) +
                                 std::sin(angle) * frame.block<3, 1>(0, 1);
            // The farthest place of the rod's axis this way carries the hull.
            Vec3 farthest = poses.front().lower_ball_K;
            double reach = -1e300;
            for (const Pose& pose : poses) {
                const Vec3 axis =
                    pose.lower_ball_K + along * (pose.upper_ball_K - pose.lower_ball_K);
                if (axis.dot(outward) > reach) {
                    reach = axis.dot(outward);
                    farthest = axis;
                }
            }
            mesh.vertices.push_back(
                {(farthest + rod_radius_mm * outward).cast<float>(), outward.cast<float>()});
        }
    }
    for (std::uint32_t level = 0; level < levels; ++level) {
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

} // namespace rodway
