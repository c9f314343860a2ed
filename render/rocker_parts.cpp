#include "render/rocker_parts.h"

#include <algorithm>
#include <cmath>

#include "render/obstacle_parts.h"

namespace rodway {
namespace {

using Eigen::Vector2d;

constexpr double roller_half_width = 4.2;
constexpr double boss_radius = 7.2;
constexpr double stud_radius = 4.8;
/// Of a rocker on a stud, and of the half ball a stamped one sits on.
constexpr double stud_hub_radius = 10.0;
constexpr double half_ball_radius = 8.5;

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

/// The middle of the boss that takes the screw or the pressed cup, above the ball.
Vec3 boss_arm_K(const RockerShape& shape) {
    const double above = shape.adjuster == AdjusterKind::screw ? 8.0 : 4.0;
    return shape.ball_arm_K - (shape.ball_radius_mm + above) * shape.adjuster_axis_K;
}

/// Along the axis, from one face of the hub to the other.
struct HubFaces {
    double from = 0.0;
    double to = 0.0;
};

HubFaces hub_faces(const RockerShape& shape, const RockerPlane& plane, const UsualSizes& sizes) {
    const double half = shape.mount == RockerMount::shaft ? sizes.rocker_half_width
                                                          : std::min(9.0, sizes.rocker_half_width);
    const double tip = plane.along(shape.tip_arm_K);
    const double ball = plane.along(boss_arm_K(shape));
    return {std::min({-half, ball - 6.0, tip - 7.0}), std::max({half, ball + 6.0, tip + 7.0})};
}

double hub_radius_of(const RockerShape& shape, const UsualSizes& sizes) {
    const double arm = shape.ball_arm_K.norm();
    return shape.mount == RockerMount::shaft ? sizes.shaft_radius + 4.2
                                             : std::min(stud_hub_radius, 0.7 * arm);
}

} // namespace

RockerShape rocker_shape(const Train& train, const std::optional<Linkage>& linkage) {
    RockerShape shape;
    shape.mount = train.rocker.mount;
    shape.adjuster = train.adjuster.kind;
    shape.axis_K = train.rocker.axis_K;
    shape.adjuster_axis_K = train.adjuster.axis_K;
    // A nut on a stud moves the pivot and turns the rocker; a screw moves the ball.
    shape.tip_arm_K = linkage ? linkage->tip_arm_K() : train.rocker.tip_arm_K;
    shape.ball_arm_K = linkage ? linkage->ball_arm_K() : train.rocker.ball_arm_K;
    const RoundSections rod = rod_sections(train.rod);
    shape.rod_radius_mm = rod.back().radius_to_mm;
    shape.ball_radius_mm = upper_ball_radius_mm(train.rod);
    shape.ball_on_adjuster = train.rod.cup_at_top;
    shape.body_K = train.rocker.body_K;
    return shape;
}

Mesh rocker_mesh(const RockerShape& shape, const UsualSizes& sizes) {
    const RockerPlane plane(shape);
    const Vec3 boss = boss_arm_K(shape);
    const double hub_radius = hub_radius_of(shape, sizes);
    const double tip_along = plane.along(shape.tip_arm_K);
    const double ball_along = plane.along(boss);
    const HubFaces hub = hub_faces(shape, plane, sizes);
    const bool on_shaft = shape.mount == RockerMount::shaft;
    const double hole = on_shaft ? sizes.shaft_radius : 0.0;
    Mesh local;
    local.add(turned(
        {{hole, hub.from}, {hub_radius, hub.from}, {hub_radius, hub.to}, {hole, hub.to}}, 32));
    if (shape.mount == RockerMount::stud) {
        local.add(cylinder(0.45 * hub_radius, hub.from - 4.0, hub.to + 4.0, 20));
    }
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
    if (shape.body_K) {
        mesh.add(capsule_mesh(*shape.body_K));
    }
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

Mesh adjuster_mesh(const RockerShape& shape) {
    const Vec3 boss = boss_arm_K(shape);
    const Vec3 up = -shape.adjuster_axis_K;
    const double ball_radius = shape.ball_radius_mm;
    Mesh mesh;
    if (shape.ball_on_adjuster) {
        Eigen::Matrix4f at = Eigen::Matrix4f::Identity();
        at.topRightCorner<3, 1>() = shape.ball_arm_K.cast<float>();
        mesh.add(ball(ball_radius, 18), at);
    } else {
        // The cup over the rod's ball.
        mesh.add(bar(shape.ball_arm_K + 0.1 * ball_radius * up,
                     shape.ball_arm_K + (ball_radius + 2.0) * up, 1.35 * ball_radius, 4.6, 18));
    }
    if (shape.adjuster != AdjusterKind::screw) {
        mesh.add(bar(shape.ball_arm_K + 0.35 * ball_radius * up, boss, 4.6, 4.6, 16));
        return mesh;
    }
    mesh.add(bar(shape.ball_arm_K + 0.35 * ball_radius * up, boss + 16.0 * up, 4.6, 4.6, 16));
    mesh.add(bar(boss + 5.0 * up, boss + 10.5 * up, 1.05 * boss_radius, 1.05 * boss_radius, 6));
    return mesh;
}

Mesh shaft_piece_mesh(const RockerShape& shape, const UsualSizes& sizes) {
    const HubFaces hub = hub_faces(shape, RockerPlane(shape), sizes);
    return cylinder(sizes.shaft_radius, hub.from - 3.0, hub.to + 3.0, 28);
}

Mesh stud_mesh(const RockerShape& shape) {
    const Vec3 down = shape.adjuster_axis_K;
    const auto at = [&](double below_pivot) { return Vec3(below_pivot * down); };
    const bool ball_pivot = shape.mount == RockerMount::ball_pivot;
    const double seat = ball_pivot ? 0.5 : stud_hub_radius + 0.3;
    Mesh mesh = bar(at(34.0), at(-seat - 15.0), stud_radius, stud_radius, 18);
    mesh.add(bar(at(34.0), at(27.0), 9.0, 9.0, 6));
    mesh.add(bar(at(-seat), at(-seat - 10.0), 8.0, 8.0, 6));
    if (ball_pivot) {
        mesh.add(turned({{0.0, -half_ball_radius},
                         {0.55 * half_ball_radius, -0.84 * half_ball_radius},
                         {0.87 * half_ball_radius, -0.5 * half_ball_radius},
                         {half_ball_radius, 0.0},
                         {0.0, 0.0}},
                        24),
                 standing_at(Vec3::Zero(), -down).cast<float>());
    }
    return mesh;
}

} // namespace rodway
