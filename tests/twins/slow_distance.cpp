#include "tests/twins/slow_distance.h"

#include <algorithm>
#include <cmath>

namespace rodway::twins {
namespace {

/// Distance of (x, y) from a straight piece of the plane.
double to_piece(double x, double y, double ax, double ay, double bx, double by) {
    const double dx = bx - ax;
    const double dy = by - ay;
    const double squared = dx * dx + dy * dy;
    const double part =
        squared > 0.0 ? std::clamp(((x - ax) * dx + (y - ay) * dy) / squared, 0.0, 1.0) : 0.0;
    return std::hypot(x - ax - part * dx, y - ay - part * dy);
}

/// One end of the wall's section, seen with the end upward: u outward from the bore's surface, z
/// from the middle of the bore.
double to_end(double u, double z, double half, double edge) {
    constexpr double far = 1e5;
    double least =
        std::min(to_piece(u, z, 0.0, 0.0, 0.0, half - edge), to_piece(u, z, edge, half, far, half));
    if (edge > 0.0 && u <= edge && z >= half - edge) {
        least = std::min(least, std::abs(std::hypot(u - edge, z - (half - edge)) - edge));
    }
    return least;
}

bool in_wall(double u, double z, double half, double edge) {
    if (u < 0.0 || z > half) {
        return false;
    }
    return !(u < edge && z > half - edge) || std::hypot(u - edge, z - (half - edge)) < edge;
}

/// How far the outline's core is, as the least over its two ends and what lies between.
double from_core(const Bore& bore, const Vec3& point_K) {
    const Vec3 from = point_K - bore.centre_K;
    const Vec3 flat = from - from.dot(bore.axis_K) * bore.axis_K;
    if (bore.half_straight_mm == 0.0) {
        return flat.norm();
    }
    const Vec3 reach = bore.half_straight_mm * bore.long_way_K;
    double least = std::min((flat - reach).norm(), (flat + reach).norm());
    if (std::abs(flat.dot(bore.long_way_K)) < bore.half_straight_mm) {
        least = std::min(least, std::abs(flat.dot(bore.long_way_K.cross(bore.axis_K))));
    }
    return least;
}

double slow(const HalfSpace& plane, const Vec3& point_K) {
    return (point_K - plane.point_K).dot(plane.normal_K);
}

double slow(const Capsule& capsule, const Vec3& point_K) {
    const Vec3 axis = capsule.to_K - capsule.from_K;
    double least = std::min((point_K - capsule.from_K).norm(), (point_K - capsule.to_K).norm());
    const double along = (point_K - capsule.from_K).dot(axis);
    if (along > 0.0 && along < axis.squaredNorm()) {
        least = std::min(least, (point_K - capsule.from_K).cross(axis).norm() / axis.norm());
    }
    return least - capsule.radius_mm;
}

double slow(const RoundBar& bar, const Vec3& point_K) {
    const Vec3 axis = bar.to_K - bar.from_K;
    const double length = axis.norm();
    const double z = (point_K - bar.from_K).dot(axis) / length;
    const double r = (point_K - bar.from_K).cross(axis).norm() / length;
    const double R = bar.radius_mm;
    const double least =
        std::min({to_piece(r, z, R, 0.0, R, length), to_piece(r, z, 0.0, 0.0, R, 0.0),
                  to_piece(r, z, 0.0, length, R, length)});
    return r < R && z > 0.0 && z < length ? -least : least;
}

double slow(const Cuboid& box, const Vec3& point_K) {
    const Vec3 from = point_K - box.centre_K;
    const Vec3 local(from.dot(box.axes_K[0]), from.dot(box.axes_K[1]), from.dot(box.axes_K[2]));
    const Vec3& half = box.half_sizes_mm;
    double least = 1e9;
    for (int way = 0; way < 3; ++way) {
        for (const double side : {-1.0, 1.0}) {
            Vec3 face = local.cwiseMax(-half).cwiseMin(half);
            face[way] = side * half[way];
            least = std::min(least, (local - face).norm());
        }
    }
    return (local.cwiseAbs() - half).maxCoeff() < 0.0 ? -least : least;
}

} // namespace

double slow_distance(const Bore& bore, const Vec3& point_K) {
    const double z = (point_K - bore.centre_K).dot(bore.axis_K);
    const double u = from_core(bore, point_K) - bore.bore_radius_mm;
    const double half = bore.length_mm / 2.0;
    const double least = std::min(to_end(u, z, half, bore.top_edge_radius_mm),
                                  to_end(u, -z, half, bore.bottom_edge_radius_mm));
    const bool inside = in_wall(u, z, half, bore.top_edge_radius_mm) &&
                        in_wall(u, -z, half, bore.bottom_edge_radius_mm);
    return inside ? -least : least;
}

double slow_distance(const Solid& solid, const Vec3& point_K) {
    return std::visit([&](const auto& shape) { return slow(shape, point_K); }, solid);
}

double slow_clearance(const PointDistance& distance, const Vec3& lower_K, const Vec3& upper_K,
                      const std::vector<RodSection>& profile) {
    constexpr int looks = 300;
    constexpr double golden = 0.6180339887498949;
    const Vec3 along = (upper_K - lower_K).normalized();
    double least = 1e9;
    for (const RodSection& section : profile) {
        const auto value = [&](double part) {
            const double t = section.from_mm + part * (section.to_mm - section.from_mm);
            const double diameter = section.diameter_from_mm +
                                    part * (section.diameter_to_mm - section.diameter_from_mm);
            return distance(lower_K + t * along) - diameter / 2.0;
        };
        std::vector<double> values;
        for (int look = 0; look <= looks; ++look) {
            values.push_back(value(static_cast<double>(look) / looks));
        }
        least = std::min(least, *std::min_element(values.begin(), values.end()));
        for (int look = 0; look <= looks; ++look) {
            const auto at = static_cast<std::size_t>(look);
            const bool dip = (look == 0 || values[at] <= values[at - 1]) &&
                             (look == looks || values[at] <= values[at + 1]);
            if (!dip || values[at] > least + 1.0) {
                continue;
            }
            double low = std::max(0, look - 1) / static_cast<double>(looks);
            double high = std::min(looks, look + 1) / static_cast<double>(looks);
            for (int step = 0; step < 60; ++step) {
                const double a = high - golden * (high - low);
                const double b = low + golden * (high - low);
                (value(a) < value(b) ? high : low) = value(a) < value(b) ? b : a;
            }
            least = std::min(least, value((low + high) / 2.0));
        }
    }
    return least;
}

} // namespace rodway::twins
