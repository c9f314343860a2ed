#include "core/geometry/segment.h"

#include <algorithm>

namespace rodway {

double nearest_fraction(const Segment& segment, const Vec3& point) {
    const Vec3 along = segment.b - segment.a;
    const double length_squared = along.squaredNorm();
    if (length_squared == 0.0) {
        return 0.0;
    }
    return std::clamp(along.dot(point - segment.a) / length_squared, 0.0, 1.0);
}

SegmentPair closest_points(const Segment& first, const Segment& second) {
    SegmentPair best;
    best.distance = -1.0;
    const auto offer = [&](double on_first, double on_second) {
        const double distance = (second.at(on_second) - first.at(on_first)).norm();
        if (best.distance < 0.0 || distance < best.distance) {
            best = {on_first, on_second, distance};
        }
    };
    for (const double end : {0.0, 1.0}) {
        offer(end, nearest_fraction(second, first.at(end)));
        offer(nearest_fraction(first, second.at(end)), end);
    }

    const Vec3 u = first.b - first.a;
    const Vec3 v = second.b - second.a;
    const Vec3 w = first.a - second.a;
    const double determinant = u.cross(v).squaredNorm();
    if (determinant > 0.0) {
        const double on_first = (u.dot(v) * v.dot(w) - v.squaredNorm() * u.dot(w)) / determinant;
        if (on_first > 0.0 && on_first < 1.0) {
            const double on_second = nearest_fraction(second, first.at(on_first));
            offer(nearest_fraction(first, second.at(on_second)), on_second);
        }
    }
    return best;
}

} // namespace rodway
