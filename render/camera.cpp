#include "render/camera.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/assert.h"
#include "core/units/angle.h"

namespace rodway {
namespace {

constexpr double nearest_mm = 5.0;
constexpr double farthest_mm = 20000.0;

/// What stands behind the target is drawn up to here; no engine is longer.
constexpr double depth_mm = 6000.0;

double half_height_mm(const Camera& camera) {
    return camera.distance_mm * std::tan(radians(camera.field_of_view_deg) / 2.0);
}

double near_mm(const Camera& camera) {
    return 0.05 * camera.distance_mm;
}

} // namespace

Vec3 forward_E(const Camera& camera) {
    const double yaw = radians(camera.yaw_deg);
    const double pitch = radians(camera.pitch_deg);
    return {std::cos(pitch) * std::cos(yaw), -std::cos(pitch) * std::sin(yaw), -std::sin(pitch)};
}

namespace {

// From the yaw alone, so that looking straight down has a right side too.
Vec3 level_right_E(const Camera& camera) {
    const double yaw = radians(camera.yaw_deg);
    return {-std::sin(yaw), -std::cos(yaw), 0.0};
}

} // namespace

Vec3 right_E(const Camera& camera) {
    const Vec3 level = level_right_E(camera);
    const double roll = radians(camera.roll_deg);
    return std::cos(roll) * level - std::sin(roll) * level.cross(forward_E(camera));
}

Vec3 up_E(const Camera& camera) {
    return right_E(camera).cross(forward_E(camera));
}

Vec3 eye_E(const Camera& camera) {
    return camera.target_E - camera.distance_mm * forward_E(camera);
}

namespace {

Camera facing(Camera camera, const Vec3& forward) {
    camera.pitch_deg = degrees(std::asin(std::clamp(-forward.z(), -1.0, 1.0)));
    // Straight up or down leaves the yaw free: it is kept.
    if (std::hypot(forward.x(), forward.y()) > 1e-9) {
        camera.yaw_deg = degrees(std::atan2(-forward.y(), forward.x()));
    }
    return camera;
}

/// Rolls the picture until a direction points up in it; one along the line of sight does nothing.
Camera rolled_to(Camera camera, const Vec3& upward_E) {
    camera.roll_deg = 0.0;
    const double up = upward_E.dot(up_E(camera));
    const double right = upward_E.dot(right_E(camera));
    if (std::hypot(up, right) > 1e-6) {
        camera.roll_deg = degrees(std::atan2(right, up));
    }
    return camera;
}

} // namespace

Camera orbited(Camera camera, double yaw_by_deg, double pitch_by_deg) {
    if (camera.roll_deg == 0.0) {
        camera.yaw_deg = std::remainder(camera.yaw_deg + yaw_by_deg, 360.0);
        camera.pitch_deg = std::clamp(camera.pitch_deg + pitch_by_deg, -90.0, 90.0);
        return camera;
    }
    const Eigen::AngleAxisd sideways(-radians(yaw_by_deg), up_E(camera));
    const Eigen::AngleAxisd over(-radians(pitch_by_deg), right_E(camera));
    const Eigen::Quaterniond turn = sideways * over;
    const Vec3 up = turn * up_E(camera);
    return rolled_to(facing(camera, turn * forward_E(camera)), up);
}

Camera panned(Camera camera, double right_px, double down_px, PictureSize size) {
    const double scale = mm_per_pixel(camera, size);
    camera.target_E += scale * (down_px * up_E(camera) - right_px * right_E(camera));
    return camera;
}

Camera zoomed(Camera camera, double factor) {
    RODWAY_ASSERT(factor > 0.0);
    camera.distance_mm = std::clamp(camera.distance_mm / factor, nearest_mm, farthest_mm);
    return camera;
}

Camera framed(Camera camera, const Box& box, PictureSize size) {
    std::vector<Vec3> corners;
    corners.reserve(8);
    for (int corner = 0; corner < 8; ++corner) {
        corners.emplace_back((corner & 1) != 0 ? box.high_E.x() : box.low_E.x(),
                             (corner & 2) != 0 ? box.high_E.y() : box.low_E.y(),
                             (corner & 4) != 0 ? box.high_E.z() : box.low_E.z());
    }
    return framed(std::move(camera), corners, size);
}

// A point r to the right, u up and f ahead is inside the right edge of the picture of an eye at
// (r0, u0, f0) if r - r0 ≤ t·(f - f0), t the tangent of half the picture's width; so with
// A = max(r - t·f) and B = max(-r - t·f) the farthest forward eye that sees all stands at
// f0 = -(A + B)/2t, r0 = (A - B)/2. The same for up and down; the farther back of the two serves
// both.
Camera framed(Camera camera, const std::vector<Vec3>& points_E, PictureSize size) {
    if (points_E.empty()) {
        return camera;
    }
    constexpr double margin = 1.06;
    const double tan_up = std::tan(radians(camera.field_of_view_deg) / 2.0) / margin;
    const double tan_side = tan_up * size.width / std::max(1, size.height);
    const Vec3 right = right_E(camera);
    const Vec3 up = up_E(camera);
    const Vec3 forward = forward_E(camera);
    constexpr double none = -1e300;
    double to_right = none, to_left = none, to_top = none, to_foot = none, ahead = none,
           behind = none;
    for (const Vec3& point : points_E) {
        const double f = point.dot(forward);
        const double towards = camera.perspective ? f : 0.0;
        to_right = std::max(to_right, point.dot(right) - tan_side * towards);
        to_left = std::max(to_left, -point.dot(right) - tan_side * towards);
        to_top = std::max(to_top, point.dot(up) - tan_up * towards);
        to_foot = std::max(to_foot, -point.dot(up) - tan_up * towards);
        ahead = std::max(ahead, f);
        behind = std::max(behind, -f);
    }
    const double middle = 0.5 * (ahead - behind);
    const double eye =
        std::min(-(to_right + to_left) / (2.0 * tan_side), -(to_top + to_foot) / (2.0 * tan_up));
    camera.distance_mm =
        std::clamp(camera.perspective ? middle - eye : -eye, nearest_mm, farthest_mm);
    camera.target_E =
        0.5 * (to_right - to_left) * right + 0.5 * (to_top - to_foot) * up + middle * forward;
    return camera;
}

Camera looking_at(Camera camera, const Vec3& target_E, const Vec3& forward_E, double height_mm) {
    RODWAY_ASSERT(forward_E.norm() > 0.0 && height_mm > 0.0);
    const Vec3 forward = forward_E.normalized();
    camera.target_E = target_E;
    camera = facing(std::move(camera), forward);
    camera.distance_mm = height_mm / (2.0 * std::tan(radians(camera.field_of_view_deg) / 2.0));
    return camera;
}

Camera along_rod(Camera camera, const Segment& rod_E) {
    const Vec3 down = rod_E.a - rod_E.b;
    RODWAY_ASSERT(down.norm() > 0.0);
    // Wide enough for the tube's mouth and what stands around it.
    constexpr double seen_mm = 48.0;
    // With perspective the rod's near end would hide the tube.
    camera.perspective = false;
    camera = looking_at(camera, rod_E.at(0.6), down, seen_mm);
    // A rod that lies along the crank has no 12 o'clock: it stays as it is.
    return rolled_to(std::move(camera), -Vec3::UnitX());
}

double mm_per_pixel(const Camera& camera, PictureSize size) {
    return 2.0 * half_height_mm(camera) / std::max(1, size.height);
}

Eigen::Matrix4d clip_from_block(const Camera& camera, PictureSize size) {
    Eigen::Matrix4d view = Eigen::Matrix4d::Identity();
    view.block<1, 3>(0, 0) = right_E(camera).transpose();
    view.block<1, 3>(1, 0) = up_E(camera).transpose();
    view.block<1, 3>(2, 0) = -forward_E(camera).transpose();
    view.block<3, 1>(0, 3) = -view.block<3, 3>(0, 0) * eye_E(camera);

    const double aspect = static_cast<double>(size.width) / std::max(1, size.height);
    const double far = camera.distance_mm + depth_mm;
    Eigen::Matrix4d projection = Eigen::Matrix4d::Zero();
    if (camera.perspective) {
        const double near = near_mm(camera);
        const double cotangent = 1.0 / std::tan(radians(camera.field_of_view_deg) / 2.0);
        projection(0, 0) = cotangent / aspect;
        projection(1, 1) = cotangent;
        projection(2, 2) = (far + near) / (near - far);
        projection(2, 3) = 2.0 * far * near / (near - far);
        projection(3, 2) = -1.0;
    } else {
        const double near = camera.distance_mm - depth_mm;
        projection(0, 0) = 1.0 / (half_height_mm(camera) * aspect);
        projection(1, 1) = 1.0 / half_height_mm(camera);
        projection(2, 2) = -2.0 / (far - near);
        projection(2, 3) = -(far + near) / (far - near);
        projection(3, 3) = 1.0;
    }
    return projection * view;
}

std::optional<PicturePoint> projected(const Camera& camera, PictureSize size, const Vec3& point_E) {
    const double depth = (point_E - eye_E(camera)).dot(forward_E(camera));
    if (camera.perspective && depth < near_mm(camera)) {
        return std::nullopt;
    }
    const Eigen::Vector4d clip = clip_from_block(camera, size) * point_E.homogeneous();
    return PicturePoint{(0.5 + 0.5 * clip.x() / clip.w()) * size.width,
                        (0.5 - 0.5 * clip.y() / clip.w()) * size.height, depth};
}

} // namespace rodway
