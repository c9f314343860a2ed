#include "tests/witness/facetted_bore.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rodway::witness {
namespace {

constexpr double pi = std::numbers::pi;

/// One corner of the outline, so that it can be offset: the middle of its rounded side, and the
/// way out from there. In the bore's own x (the long way), y, z (the axis).
struct OutlineCorner {
    double middle_x;
    double out_x, out_y;
};

/// One corner of the cut through the wall: how far outside the bore, and how high.
struct CutCorner {
    double out;
    double z;
};

struct OwnFrame {
    Vec3 x_K, y_K, z_K;
};

OwnFrame own_frame(const Bore& bore) {
    const Vec3 z = bore.axis_K;
    const Vec3 x = bore.half_straight_mm > 0.0 ? bore.long_way_K : Vec3(z.unitOrthogonal());
    return {x, z.cross(x), z};
}

/// Angles from `from` to `to` that stand a share of a step from `near`, both ends included.
std::vector<double> laid_out(double from, double to, double step, double near, double share) {
    std::vector<double> angles{from};
    const double first = near - share * step;
    for (double angle = first - std::floor((first - from) / step) * step; angle < to - 1e-9;
         angle += step) {
        if (angle > from + 1e-9) {
            angles.push_back(angle);
        }
    }
    angles.push_back(to);
    return angles;
}

std::vector<OutlineCorner> outline(const Bore& bore, const OwnFrame& own, const Facets& facets) {
    const double step = 2.0 * pi / facets.around;
    const Vec3 near = facets.near_K - bore.centre_K;
    const double half = bore.half_straight_mm;
    const double x = near.dot(own.x_K);
    const double angle = std::atan2(near.dot(own.y_K), x - std::clamp(x, -half, half));
    std::vector<OutlineCorner> corners;
    if (half == 0.0) {
        const double first = angle - facets.share_around * step;
        for (int facet = 0; facet < facets.around; ++facet) {
            const double at = first + facet * step;
            corners.push_back({0.0, std::cos(at), std::sin(at)});
        }
        return corners;
    }
    for (const double side : {1.0, -1.0}) {
        const double from = side > 0.0 ? -pi / 2.0 : pi / 2.0;
        for (const double at : laid_out(from, from + pi, step, angle, facets.share_around)) {
            corners.push_back({side * half, std::cos(at), std::sin(at)});
        }
    }
    return corners;
}

/// The rounded edge of one end from the bore outwards; `up` is +1 at the top.
std::vector<CutCorner> edge_cut(const Bore& bore, const Facets& facets, const OwnFrame& own,
                                double up) {
    const double radius = up > 0.0 ? bore.top_edge_radius_mm : bore.bottom_edge_radius_mm;
    const double end = bore.length_mm / 2.0;
    if (radius == 0.0) {
        return {{0.0, up * end}};
    }
    const Vec3 near = facets.near_K - bore.centre_K;
    const double half = bore.half_straight_mm;
    const double x = near.dot(own.x_K);
    const double outside =
        std::hypot(x - std::clamp(x, -half, half), near.dot(own.y_K)) - bore.bore_radius_mm;
    const double height = up * near.dot(own.z_K);
    const double turned =
        std::clamp(std::atan2(height - (end - radius), radius - outside), 0.0, pi / 2.0);
    std::vector<CutCorner> cut;
    for (const double at :
         laid_out(0.0, pi / 2.0, pi / 2.0 / facets.over_edge, turned, facets.share_over_edge)) {
        cut.push_back({radius * (1.0 - std::cos(at)), up * (end - radius + radius * std::sin(at))});
    }
    return cut;
}

} // namespace

twins::TriangleMesh facetted_bore(const Bore& bore, const Facets& facets) {
    const OwnFrame own = own_frame(bore);
    const std::vector<OutlineCorner> around = outline(bore, own, facets);
    const double end = bore.length_mm / 2.0;
    std::vector<CutCorner> cut = edge_cut(bore, facets, own, 1.0);
    std::reverse(cut.begin(), cut.end());
    cut.insert(cut.begin(), {facets.out_mm, end});
    const std::vector<CutCorner> bottom = edge_cut(bore, facets, own, -1.0);
    cut.insert(cut.end(), bottom.begin(), bottom.end());
    cut.push_back({facets.out_mm, -end});

    twins::TriangleMesh mesh;
    for (const OutlineCorner& corner : around) {
        for (const CutCorner& at : cut) {
            const double r = bore.bore_radius_mm + at.out;
            mesh.points.push_back(bore.centre_K + (corner.middle_x + r * corner.out_x) * own.x_K +
                                  r * corner.out_y * own.y_K + at.z * own.z_K);
        }
    }
    for (std::size_t side = 0; side < around.size(); ++side) {
        const std::size_t here = side * cut.size();
        const std::size_t next = (side + 1) % around.size() * cut.size();
        for (std::size_t at = 0; at + 1 < cut.size(); ++at) {
            mesh.triangles.push_back({here + at, here + at + 1, next + at});
            mesh.triangles.push_back({next + at, here + at + 1, next + at + 1});
        }
    }
    return mesh;
}

double facet_depth_mm(const Bore& bore, const Facets& facets) {
    const double edge = std::max(bore.top_edge_radius_mm, bore.bottom_edge_radius_mm);
    return (bore.bore_radius_mm + edge) * (1.0 - std::cos(pi / facets.around)) +
           edge * (1.0 - std::cos(pi / 4.0 / facets.over_edge));
}

} // namespace rodway::witness
