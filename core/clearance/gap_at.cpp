#include "core/clearance/gap_at.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rodway {
namespace {

constexpr double least_cos_tilt = 0.2;

/// A rod's axis at one mouth.
struct Crossing {
    Vec3 at_K;        ///< from the bore's axis, square to it
    Vec3 direction_K; ///< of the rod, unit
};

std::optional<Crossing> crossing(const Bore& bore, const RodPlace& rod, BoreEnd end) {
    const Vec3 along = rod.upper_K - rod.lower_K;
    const double length = along.norm();
    const double rise = along.dot(bore.axis_K);
    if (!(rise >= least_cos_tilt * length) || !(length > 0.0)) {
        return std::nullopt;
    }
    const Vec3 lower = rod.lower_K - bore.centre_K;
    const Vec3 at = lower + (mouth_plane_mm(bore, end) - lower.dot(bore.axis_K)) / rise * along;
    return Crossing{at - at.dot(bore.axis_K) * bore.axis_K, along / length};
}

/// The nearest point of the line that runs along the middle of an obround; of a round bore, its
/// axis.
double nearest_core_mm(const Bore& bore, const Vec3& at_K) {
    return std::clamp(at_K.dot(bore.long_way_K), -bore.half_straight_mm, bore.half_straight_mm);
}
Vec3 nearest_core_K(const Bore& bore, const Vec3& at_K) {
    return nearest_core_mm(bore, at_K) * bore.long_way_K;
}

/// Where the ball that a gauge stands for has its centre, and how far the room towards the rod
/// grows for each millimetre of its way out.
struct GaugeBall {
    double out_mm = 0.0; ///< t
    double grows = 1.0;  ///< k
};

/// With the ball's centre t out along the ray u from the crossing c, its room towards the rod is
/// k·t - ρ (k = |u × rod's direction|), towards the wall R - |distance to the core line|. Their
/// difference f(t) is concave and positive at 0, so it has one root; Newton's method from beyond
/// it, where f is negative, falls onto it from one side. Beyond it: the distance to the core line
/// is at least t - |c| - h, so f(t) ≤ 0 from t = (R + ρ + |c| + h)/(1 + k) on. In a round bore
/// |c + t·u| = R + ρ - k·t, squared, is a quadratic with one positive root (|c| < R + ρ).
GaugeBall gauge_ball(const Bore& bore, const Crossing& crossing, double rod_radius, const Vec3& u) {
    const double R = bore.bore_radius_mm;
    const double tilted = crossing.direction_K.dot(u);
    const double k = std::sqrt(1.0 - tilted * tilted);
    if (!(bore.half_straight_mm > 0.0)) {
        const double both = R + rod_radius;
        const double middle = crossing.at_K.dot(u) + both * k;
        const double last = both * both - crossing.at_K.squaredNorm();
        return {last / (middle + std::sqrt(middle * middle + tilted * tilted * last)), k};
    }
    double t = (R + rod_radius + crossing.at_K.norm() + bore.half_straight_mm) / (1.0 + k);
    for (int step = 0; step < 60; ++step) {
        const Vec3 centre = crossing.at_K + t * u;
        const Vec3 out = centre - nearest_core_K(bore, centre);
        const double distance = out.norm();
        const double f = R - distance - (k * t - rod_radius);
        const double slope = (distance > 0.0 ? -out.dot(u) / distance : 0.0) - k;
        const double next = t - f / slope;
        if (!(slope < 0.0) || !(next < t)) {
            break;
        }
        const bool settled = t - next < 1e-13 * t;
        t = next;
        if (settled) {
            break;
        }
    }
    return {t, k};
}

double gap_from(const Bore& bore, const Crossing& crossing, double rod_radius, const Vec3& u) {
    const GaugeBall ball = gauge_ball(bore, crossing, rod_radius, u);
    return 2.0 * (ball.grows * ball.out_mm - rod_radius);
}

/// Past half the rod's radius outside the outline the ball's place has no more meaning.
double farthest_out_mm(const Bore& bore, double rod_radius) {
    return bore.bore_radius_mm + rod_radius / 2.0;
}

double gap_anywhere(const Bore& bore, Crossing crossing, double rod_radius, const Vec3& u) {
    const Vec3 core = nearest_core_K(bore, crossing.at_K);
    const Vec3 out = crossing.at_K - core;
    const double farthest = farthest_out_mm(bore, rod_radius);
    const double beyond = out.norm() - farthest;
    if (beyond <= 0.0) {
        return gap_from(bore, crossing, rod_radius, u);
    }
    crossing.at_K = core + out.normalized() * farthest; // from there on it falls with the distance
    return gap_from(bore, crossing, rod_radius, u) - 2.0 * beyond;
}

bool inside(const Bore& bore, const Vec3& at_K) {
    return (at_K - nearest_core_K(bore, at_K)).norm() < bore.bore_radius_mm;
}

/// What a rod gets that runs across the bore: less than any that goes through it can have.
double across_mm(const Bore& bore, const RodPlace& rod) {
    return -4.0 * (bore.bore_radius_mm + bore.half_straight_mm + rod.radius_mm);
}

/// 12 and 3 o'clock.
struct Face {
    Vec3 twelve_K;
    Vec3 three_K;

    explicit Face(const Bore& bore)
        : twelve_K((-Vec3::UnitX() + bore.axis_K.x() * bore.axis_K).normalized()),
          three_K(twelve_K.cross(bore.axis_K)) {}
    [[nodiscard]] Vec3 direction_K(double rad) const {
        return std::cos(rad) * twelve_K + std::sin(rad) * three_K;
    }
};

TightestGap tightest(const Bore& bore, const Crossing& crossing, double rod_radius) {
    const Face face(bore);
    const auto gap = [&](double rad) {
        return gap_anywhere(bore, crossing, rod_radius, face.direction_K(rad));
    };
    constexpr int looks = 12;
    constexpr double step = 2.0 * std::numbers::pi / looks;
    double best = 0.0;
    double least = gap(0.0);
    for (int look = 1; look < looks; ++look) {
        if (const double here = gap(look * step); here < least) {
            least = here;
            best = look * step;
        }
    }
    // Golden section: to 1e-4 rad, so to some 1e-8 mm of gap, which is level there.
    constexpr double golden = 0.6180339887498949;
    double low = best - step;
    double high = best + step;
    double a = high - golden * (high - low);
    double b = low + golden * (high - low);
    double at_a = gap(a);
    double at_b = gap(b);
    while (high - low > 1e-4) {
        if (at_a < at_b) {
            high = b;
            b = a;
            at_b = at_a;
            a = high - golden * (high - low);
            at_a = gap(a);
        } else {
            low = a;
            a = b;
            at_a = at_b;
            b = low + golden * (high - low);
            at_b = gap(b);
        }
    }
    const double rad = (low + high) / 2.0;
    double hours = std::fmod(rad * 6.0 / std::numbers::pi, 12.0);
    if (hours <= 0.0) {
        hours += 12.0;
    }
    return {gap(rad), hours};
}

/// Where the gap moves with the clock direction u, from what that direction itself moves with: the
/// bore's axis a. u = cos·T + sin·T×a, and T is v = -x + a_x·a made a unit vector.
Vec3 by_axis_through_clock(const Bore& bore, double rad, const Vec3& by_direction) {
    const Vec3& a = bore.axis_K;
    const Vec3 v = -Vec3::UnitX() + a.x() * a;
    const double length = v.norm();
    const Vec3 twelve = v / length;
    const Vec3 by_twelve = std::cos(rad) * by_direction + std::sin(rad) * a.cross(by_direction);
    const Vec3 by_v = (by_twelve - by_twelve.dot(twelve) * twelve) / length;
    return std::sin(rad) * by_direction.cross(twelve) + a.x() * by_v + by_v.dot(a) * Vec3::UnitX();
}

} // namespace

double mouth_plane_mm(const Bore& bore, BoreEnd end) {
    const double half = bore.length_mm / 2.0;
    return end == BoreEnd::top ? half - bore.top_edge_radius_mm : bore.bottom_edge_radius_mm - half;
}

Vec3 clock_direction_K(const Bore& bore, double clock_hours) {
    return Face(bore).direction_K(clock_hours * std::numbers::pi / 6.0);
}

std::optional<double> gap_at(const Bore& bore, const RodPlace& rod, BoreEnd end,
                             double clock_hours) {
    const auto at = crossing(bore, rod, end);
    if (!at || !inside(bore, at->at_K)) {
        return std::nullopt;
    }
    return gap_from(bore, *at, rod.radius_mm, clock_direction_K(bore, clock_hours));
}

double gap_anywhere_mm(const Bore& bore, const RodPlace& rod, BoreEnd end, double clock_hours) {
    const auto at = crossing(bore, rod, end);
    return at ? gap_anywhere(bore, *at, rod.radius_mm, clock_direction_K(bore, clock_hours))
              : across_mm(bore, rod);
}

// With q = c + t·u the ball's centre, κ the nearest place on the core line, n the unit vector from
// there to q, and d the rod's direction: R - n·(q - κ·l) = k·t - ρ holds as everything moves, so
//   (n·u + k)·dt = -n·(dc + t·du - κ·dl) - t·dk,   dk = -(d·u)/k · d·du,   gap = 2·(k·t - ρ).
// The crossing c, from the mouth's middle m = centre + plane·a, stays on the rod and square to a:
//   dc = d·(dm·a - c·da)/(d·a) - dm.
std::optional<GapGradient> gap_gradient(const Bore& bore, const RodPlace& rod, BoreEnd end,
                                        double clock_hours) {
    const auto at = crossing(bore, rod, end);
    if (!at || !((at->at_K - nearest_core_K(bore, at->at_K)).norm() <
                 farthest_out_mm(bore, rod.radius_mm))) {
        return std::nullopt;
    }
    const double rad = clock_hours * std::numbers::pi / 6.0;
    const Vec3 u = Face(bore).direction_K(rad);
    const auto [t, k] = gauge_ball(bore, *at, rod.radius_mm, u);
    const Vec3 q = at->at_K + t * u;
    const double kappa = nearest_core_mm(bore, q);
    const Vec3 n = (q - kappa * bore.long_way_K).normalized();
    const Vec3& a = bore.axis_K;
    const Vec3& d = at->direction_K;
    const double both = n.dot(u) + k;
    if (!(both > 0.0)) {
        return std::nullopt;
    }
    const Vec3 by_crossing = -2.0 * k / both * n;
    const Vec3 by_direction = t * by_crossing - 2.0 * t * n.dot(u) * d.dot(u) / (both * k) * d;
    const double along_rod = by_crossing.dot(d) / d.dot(a);
    GapGradient found;
    found.gap_mm = 2.0 * (k * t - rod.radius_mm);
    found.by_centre_K = along_rod * a - by_crossing;
    found.by_axis_K = mouth_plane_mm(bore, end) * found.by_centre_K - along_rod * at->at_K +
                      by_axis_through_clock(bore, rad, by_direction);
    found.by_long_way_K = -kappa * by_crossing;
    return found;
}

std::optional<TightestGap> tightest_gap(const Bore& bore, const RodPlace& rod, BoreEnd end) {
    const auto at = crossing(bore, rod, end);
    if (!at || !inside(bore, at->at_K)) {
        return std::nullopt;
    }
    return tightest(bore, *at, rod.radius_mm);
}

TightestGap tightest_gap_anywhere(const Bore& bore, const RodPlace& rod, BoreEnd end) {
    const auto at = crossing(bore, rod, end);
    return at ? tightest(bore, *at, rod.radius_mm) : TightestGap{across_mm(bore, rod), 12.0};
}

std::optional<Vec3> mouth_crossing_K(const Bore& bore, const RodPlace& rod, BoreEnd end) {
    const auto at = crossing(bore, rod, end);
    return at ? std::optional(at->at_K) : std::nullopt;
}

} // namespace rodway
