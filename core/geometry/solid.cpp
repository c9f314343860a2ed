#include "core/geometry/solid.h"

#include <cmath>
#include <limits>

#include "core/geometry/segment.h"

namespace rodway {
namespace {

SurfacePoint surface_point(double distance, const Vec3& point_K, const Vec3& outward_K) {
    return {distance, point_K - distance * outward_K, outward_K};
}

SurfacePoint nearest_of(const HalfSpace& plane, const Vec3& point_K) {
    return surface_point(plane.normal_K.dot(point_K - plane.point_K), point_K, plane.normal_K);
}

/// Unit, and upright for a bar of no length.
Vec3 axis_of(const Vec3& from_K, const Vec3& to_K) {
    const Vec3 along = to_K - from_K;
    const double length = along.norm();
    return length > 0.0 ? Vec3(along / length) : Vec3::UnitZ();
}

// A bar seen with its axis is the corner where its side, `past_side` away, and its end meet.
SurfacePoint nearest_of(const RoundBar& bar, const Vec3& point_K) {
    const Vec3 axis = axis_of(bar.from_K, bar.to_K);
    const Vec3 from_middle = point_K - (bar.from_K + bar.to_K) / 2.0;
    const double z = from_middle.dot(axis);
    const Vec3 radial = from_middle - z * axis;
    const double r = radial.norm();
    const Vec3 out = r > 0.0 ? Vec3(radial / r) : axis.unitOrthogonal();
    const Vec3 end = z >= 0.0 ? axis : Vec3(-axis);
    const double past_side = r - bar.radius_mm;
    const double past_end = std::abs(z) - (bar.to_K - bar.from_K).norm() / 2.0;
    if (past_side > 0.0 && past_end > 0.0) {
        const double distance = std::hypot(past_side, past_end);
        return surface_point(distance, point_K, (past_side * out + past_end * end) / distance);
    }
    return past_side >= past_end ? surface_point(past_side, point_K, out)
                                 : surface_point(past_end, point_K, end);
}

SurfacePoint nearest_of(const Cuboid& box, const Vec3& point_K) {
    const Vec3 from_centre = point_K - box.centre_K;
    Vec3 outside = Vec3::Zero(); // past each pair of faces, outward
    double least_deep = -std::numeric_limits<double>::infinity();
    Vec3 nearest_outward = box.axes_K[0];
    for (int way = 0; way < 3; ++way) {
        const Vec3& axis = box.axes_K[static_cast<std::size_t>(way)];
        const double along = from_centre.dot(axis);
        const Vec3 outward = along >= 0.0 ? axis : Vec3(-axis);
        const double past = std::abs(along) - box.half_sizes_mm[way];
        if (past > 0.0) {
            outside += past * outward;
        }
        if (past > least_deep) {
            least_deep = past;
            nearest_outward = outward;
        }
    }
    if (least_deep > 0.0) {
        const double distance = outside.norm();
        return surface_point(distance, point_K, outside / distance);
    }
    return surface_point(least_deep, point_K, nearest_outward);
}

SurfacePoint nearest_of(const Capsule& capsule, const Vec3& point_K) {
    const Segment core{capsule.from_K, capsule.to_K};
    const Vec3 from_core = point_K - core.at(nearest_fraction(core, point_K));
    const double r = from_core.norm();
    const Vec3 outward =
        r > 0.0 ? Vec3(from_core / r) : axis_of(capsule.from_K, capsule.to_K).unitOrthogonal();
    return surface_point(r - capsule.radius_mm, point_K, outward);
}

} // namespace

SurfacePoint signed_distance(const Solid& solid, const Vec3& point_K) {
    return std::visit([&](const auto& shape) { return nearest_of(shape, point_K); }, solid);
}

Solid shifted(const Solid& solid, const Vec3& by_K) {
    struct Shift {
        const Vec3& by_K;
        void operator()(HalfSpace& plane) const { plane.point_K += by_K; }
        void operator()(RoundBar& bar) const { both(bar.from_K, bar.to_K); }
        void operator()(Cuboid& box) const { box.centre_K += by_K; }
        void operator()(Capsule& capsule) const { both(capsule.from_K, capsule.to_K); }
        void both(Vec3& from_K, Vec3& to_K) const {
            from_K += by_K;
            to_K += by_K;
        }
    };
    Solid moved = solid;
    std::visit(Shift{by_K}, moved);
    return moved;
}

Solid turned(const Solid& solid, const Eigen::Matrix3d& rotation) {
    struct Turn {
        const Eigen::Matrix3d& R;
        void operator()(HalfSpace& plane) const { both(plane.point_K, plane.normal_K); }
        void operator()(RoundBar& bar) const { both(bar.from_K, bar.to_K); }
        void operator()(Cuboid& box) const {
            box.centre_K = R * box.centre_K;
            for (Vec3& axis : box.axes_K) {
                axis = R * axis;
            }
        }
        void operator()(Capsule& capsule) const { both(capsule.from_K, capsule.to_K); }
        void both(Vec3& from_K, Vec3& to_K) const {
            from_K = R * from_K;
            to_K = R * to_K;
        }
    };
    Solid moved = solid;
    std::visit(Turn{rotation}, moved);
    return moved;
}

} // namespace rodway
