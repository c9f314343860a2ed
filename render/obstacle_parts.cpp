#include "render/obstacle_parts.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "render/train_parts.h"

namespace rodway {
namespace {

using Eigen::Vector2d;

constexpr int bar_around = 24;

/// The corners of the box, as seen in a frame, by its x and y.
Eigen::AlignedBox2d spread(const NearRods& near, const Eigen::Matrix4d& frame) {
    const Eigen::Matrix4d into = frame.inverse();
    Eigen::AlignedBox2d box;
    for (int corner = 0; corner < 8; ++corner) {
        const Vec3 at((corner & 1) != 0 ? near.high_K.x() : near.low_K.x(),
                      (corner & 2) != 0 ? near.high_K.y() : near.low_K.y(),
                      (corner & 4) != 0 ? near.high_K.z() : near.low_K.z());
        const Eigen::Vector4d seen = into * at.homogeneous();
        box.extend(Vector2d(seen.x(), seen.y()));
    }
    return box;
}

Mesh plane_mesh(const HalfSpace& plane, const NearRods& near) {
    constexpr double slab_mm = 2.5;
    const Vec3 hint = std::abs(plane.normal_K.x()) < 0.9 ? Vec3::UnitX() : Vec3::UnitY();
    const Vec3 middle = 0.5 * (near.low_K + near.high_K);
    const Vec3 foot = middle - (middle - plane.point_K).dot(plane.normal_K) * plane.normal_K;
    const Eigen::Matrix4d frame = standing_at(foot, plane.normal_K, hint);
    const Eigen::AlignedBox2d box = spread(near, frame);
    Mesh mesh;
    mesh.add(drawn_out({box.corner(Eigen::AlignedBox2d::BottomLeft),
                        box.corner(Eigen::AlignedBox2d::BottomRight),
                        box.corner(Eigen::AlignedBox2d::TopRight),
                        box.corner(Eigen::AlignedBox2d::TopLeft)},
                       -slab_mm, 0.0),
             frame.cast<float>());
    return mesh;
}

/// The thread is cut into the bar: its crests stand at the stated radius.
Mesh bolt_mesh(const RoundBar& bolt) {
    constexpr double pitch_mm = 1.6;
    constexpr double depth_mm = 0.9;
    const double length = (bolt.to_K - bolt.from_K).norm();
    const double root = std::max(0.6 * bolt.radius_mm, bolt.radius_mm - depth_mm);
    std::vector<TurnedPoint> outline{{0.0, 0.0}, {bolt.radius_mm, 0.0}};
    for (double z = 0.5 * pitch_mm; z + pitch_mm < length; z += pitch_mm) {
        outline.push_back({root, z});
        outline.push_back({bolt.radius_mm, z + 0.5 * pitch_mm});
    }
    outline.push_back({bolt.radius_mm, length});
    outline.push_back({0.0, length});
    Mesh mesh;
    mesh.add(turned(outline, bar_around),
             standing_at(bolt.from_K, (bolt.to_K - bolt.from_K) / length).cast<float>());
    return mesh;
}

Mesh cuboid_mesh(const Cuboid& box) {
    const Vec3& half = box.half_sizes_mm;
    Eigen::Matrix4d place = Eigen::Matrix4d::Identity();
    for (int at = 0; at < 3; ++at) {
        place.block<3, 1>(0, at) = box.axes_K[static_cast<std::size_t>(at)];
    }
    place.block<3, 1>(0, 3) = box.centre_K;
    Mesh mesh;
    mesh.add(drawn_out({{-half.x(), -half.y()},
                        {half.x(), -half.y()},
                        {half.x(), half.y()},
                        {-half.x(), half.y()}},
                       -half.z(), half.z()),
             place.cast<float>());
    return mesh;
}

} // namespace

Mesh capsule_mesh(const Capsule& capsule) {
    Mesh mesh;
    for (const Vec3& end : {capsule.from_K, capsule.to_K}) {
        Eigen::Matrix4f at = Eigen::Matrix4f::Identity();
        at.topRightCorner<3, 1>() = end.cast<float>();
        mesh.add(ball(capsule.radius_mm, bar_around), at);
    }
    if ((capsule.to_K - capsule.from_K).norm() > 1e-6) {
        mesh.add(
            bar(capsule.from_K, capsule.to_K, capsule.radius_mm, capsule.radius_mm, bar_around));
    }
    return mesh;
}

Mesh obstacle_mesh(ObstacleKind kind, const Solid& solid, const NearRods& near) {
    if (const auto* plane = std::get_if<HalfSpace>(&solid)) {
        return plane_mesh(*plane, near);
    }
    if (const auto* box = std::get_if<Cuboid>(&solid)) {
        return cuboid_mesh(*box);
    }
    if (const auto* capsule = std::get_if<Capsule>(&solid)) {
        return capsule_mesh(*capsule);
    }
    const auto& round = std::get<RoundBar>(solid);
    if ((round.to_K - round.from_K).norm() < 1e-6) {
        return {};
    }
    return kind == ObstacleKind::bolt_end
               ? bolt_mesh(round)
               : bar(round.from_K, round.to_K, round.radius_mm, round.radius_mm, bar_around);
}

} // namespace rodway
