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
    const double half = bore.length_mm / 2.0;
    const double plane =
        end == BoreEnd::top ? half - bore.top_edge_radius_mm : bore.bottom_edge_radius_mm - half;
    const Vec3 along = rod.upper_K - rod.lower_K;
    const double length = along.norm();
    const double rise = along.dot(bore.axis_K);
    if (!(rise >= least_cos_tilt * length) || !(length > 0.0)) {
        return std::nullopt;
    }
    const Vec3 lower = rod.lower_K - bore.centre_K;
    const Vec3 at = lower + (plane - lower.dot(bore.axis_K)) / rise * along;
    return Crossing{at - at.dot(bore.axis_K) * bore.axis_K, along / length};
}

/// The nearest point of the line that runs along the middle of an obround; of a round bore, its
/// axis.
Vec3 nearest_core_K(const Bore& bore, const Vec3& at_K) {
    const double along =
        std::clamp(at_K.dot(bore.long_way_K), -bore.half_straight_mm, bore.half_straight_mm);
    return along * bore.long_way_K;
}

/// With the ball's centre t out along the ray u from the crossing c, its room towards the rod is
/// k·t - ρ (k = |u × rod's direction|), towards the wall R - |distance to the core line|. Their
/// difference f(t) is concave and positive at 0, so it has one root; Newton's method from far out,
/// where f is negative, falls onto it from one side.
double gap_from(const Bore& bore, const Crossing& crossing, double rod_radius, const Vec3& u) {
    const double R = bore.bore_radius_mm;
    const double tilted = crossing.direction_K.dot(u);
    const double k = std::sqrt(1.0 - tilted * tilted);
    double t = 2.0 * (crossing.at_K.norm() + R + bore.half_straight_mm + rod_radius);
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
    return 2.0 * (k * t - rod_radius);
}

double gap_anywhere(const Bore& bore, Crossing crossing, double rod_radius, const Vec3& u) {
    // Past half the rod's radius outside the outline the ball's place has no more meaning: from
    // there on the gap simply falls with the distance.
    const Vec3 core = nearest_core_K(bore, crossing.at_K);
    const Vec3 out = crossing.at_K - core;
    const double farthest = bore.bore_radius_mm + rod_radius / 2.0;
    const double beyond = out.norm() - farthest;
    if (beyond <= 0.0) {
        return gap_from(bore, crossing, rod_radius, u);
    }
    crossing.at_K = core + out.normalized() * farthest;
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

} // namespace

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
