#include "tests/witness/placed_rod.h"

#include <algorithm>
#include <cmath>

#include "core/units/angle.h"

namespace rodway::witness {

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

Vec3 random_direction(std::mt19937_64& random) {
    for (;;) {
        const double x = between(random, -1.0, 1.0);
        const double y = between(random, -1.0, 1.0);
        const Vec3 direction(x, y, between(random, -1.0, 1.0));
        const double length = direction.norm();
        if (length > 0.1 && length <= 1.0) {
            return direction / length;
        }
    }
}

Bore random_bore(std::mt19937_64& random, const Ways& ways) {
    Bore bore;
    bore.centre_K = between(random, 0.0, 500.0) * random_direction(random);
    bore.axis_K = random_direction(random);
    bore.length_mm = between(random, 20.0, 110.0);
    bore.bore_radius_mm = between(random, 4.0, 12.0);
    if (ways.obround) {
        bore.half_straight_mm = between(random, 0.5, 10.0);
        const Vec3 any = random_direction(random);
        bore.long_way_K = bore.axis_K.cross(any).normalized();
    }
    if (ways.rounded_ends) {
        bore.top_edge_radius_mm = between(random, 0.3, 4.0);
        bore.bottom_edge_radius_mm = between(random, 0.3, 4.0);
    }
    return bore;
}

double inside_outline_mm(const Bore& bore, const Vec3& point_K) {
    const Vec3 from_centre = point_K - bore.centre_K;
    const Vec3 across = from_centre - from_centre.dot(bore.axis_K) * bore.axis_K;
    if (bore.half_straight_mm == 0.0) {
        return bore.bore_radius_mm - across.norm();
    }
    const double along =
        std::clamp(across.dot(bore.long_way_K), -bore.half_straight_mm, bore.half_straight_mm);
    return bore.bore_radius_mm - (across - along * bore.long_way_K).norm();
}

PlacedRod random_rod(std::mt19937_64& random, const Ways& ways) {
    for (;;) {
        const Bore bore = random_bore(random, ways);
        const double half = bore.length_mm / 2.0;
        const double r = bore.bore_radius_mm + bore.half_straight_mm;
        const Vec3 x = bore.axis_K.unitOrthogonal();
        const Vec3 y = bore.axis_K.cross(x);
        const auto crossing = [&](double height) -> Vec3 {
            const double aside = between(random, -r, r);
            return bore.centre_K + height * bore.axis_K + aside * x + between(random, -r, r) * y;
        };
        const Vec3 bottom = crossing(-half);
        const Vec3 top = crossing(half);
        const Vec3 way = (top - bottom).normalized();
        const double least_inside = (1.0 - ways.share) * bore.bore_radius_mm;
        if (std::min(inside_outline_mm(bore, bottom), inside_outline_mm(bore, top)) <
                least_inside ||
            way.dot(bore.axis_K) < std::cos(radians(ways.tilt_deg))) {
            continue;
        }
        const double below = between(random, 2.0, ways.most_beyond_mm);
        return {bore,
                {bottom - below * way, top + between(random, 2.0, ways.most_beyond_mm) * way}};
    }
}

} // namespace rodway::witness
