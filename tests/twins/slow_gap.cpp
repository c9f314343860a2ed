#include "tests/twins/slow_gap.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rodway::twins {
namespace {

/// The outline of the mouth, starting in the middle of one straight side (or anywhere, if round):
/// `along` from 0 to 1 once round.
Vec3 rim_point(const Bore& bore, const Vec3& long_way, const Vec3& short_way, double along) {
    const double turn = 2.0 * std::numbers::pi * along;
    const Vec3 out = std::cos(turn) * long_way + std::sin(turn) * short_way;
    const double side = std::cos(turn) > 0.0 ? 1.0 : -1.0;
    return side * bore.half_straight_mm * long_way + bore.bore_radius_mm * out;
}

/// Distance of a point inside the mouth's plane, seen from the middle of the mouth, to its rim: the
/// rounded sides walked round and refined, the straight sides as lines.
double to_rim(const Bore& bore, const Vec3& point) {
    const Vec3 aside = std::abs(bore.axis_K.y()) < 0.5 ? Vec3(Vec3::UnitY()) : Vec3(Vec3::UnitX());
    const Vec3 long_way =
        bore.half_straight_mm > 0.0 ? bore.long_way_K : Vec3(aside.cross(bore.axis_K).normalized());
    const Vec3 short_way = bore.axis_K.cross(long_way);
    const auto distance = [&](double along) {
        return (rim_point(bore, long_way, short_way, along) - point).norm();
    };
    constexpr int looks = 720;
    int nearest = 0;
    for (int look = 1; look < looks; ++look) {
        if (distance(static_cast<double>(look) / looks) <
            distance(static_cast<double>(nearest) / looks)) {
            nearest = look;
        }
    }
    double low = (nearest - 1.0) / looks;
    double high = (nearest + 1.0) / looks;
    for (int halving = 0; halving < 60; ++halving) {
        const double a = low + (high - low) / 3.0;
        const double b = high - (high - low) / 3.0;
        (distance(a) < distance(b) ? high : low) = distance(a) < distance(b) ? b : a;
    }
    double least = distance((low + high) / 2.0);
    if (std::abs(point.dot(long_way)) <= bore.half_straight_mm) {
        least = std::min(least, bore.bore_radius_mm - std::abs(point.dot(short_way)));
    }
    return least;
}

bool inside_rim(const Bore& bore, const Vec3& point) {
    const double beyond =
        std::max(0.0, std::abs(point.dot(bore.long_way_K)) - bore.half_straight_mm);
    const double beside = (point - point.dot(bore.long_way_K) * bore.long_way_K).norm();
    return bore.half_straight_mm > 0.0
               ? beyond * beyond + beside * beside < bore.bore_radius_mm * bore.bore_radius_mm
               : point.norm() < bore.bore_radius_mm;
}

} // namespace

double slow_gap(const Bore& bore, const RodPlace& rod, BoreEnd end, double clock_hours) {
    // The clock: an hour is 30 degrees from the front (-x) towards the bank's +y.
    const Vec3 front = Vec3(-1, 0, 0) - Vec3(-1, 0, 0).dot(bore.axis_K) * bore.axis_K;
    const Vec3 ray =
        Eigen::AngleAxisd(-clock_hours * std::numbers::pi / 6.0, bore.axis_K) * front.normalized();
    const double plane = end == BoreEnd::top ? bore.length_mm / 2.0 - bore.top_edge_radius_mm
                                             : bore.bottom_edge_radius_mm - bore.length_mm / 2.0;
    const Vec3 middle = bore.centre_K + plane * bore.axis_K;
    const Eigen::Hyperplane<double, 3> mouth(bore.axis_K, middle);
    const Eigen::ParametrizedLine<double, 3> axis =
        Eigen::ParametrizedLine<double, 3>::Through(rod.lower_K, rod.upper_K);
    const Vec3 crossing = axis.intersectionPoint(mouth);
    double in = 0.0;
    double out = 4.0 * (bore.bore_radius_mm + bore.half_straight_mm);
    for (int halving = 0; halving < 45; ++halving) {
        const double t = (in + out) / 2.0;
        const Vec3 centre = crossing + t * ray;
        const Vec3 from_middle = centre - middle;
        const double to_wall =
            inside_rim(bore, from_middle) ? to_rim(bore, from_middle) : -to_rim(bore, from_middle);
        const double to_rod = axis.distance(centre) - rod.radius_mm;
        (to_wall > to_rod ? in : out) = t;
    }
    return 2.0 * (axis.distance(crossing + in * ray) - rod.radius_mm);
}

double round_gap(const Bore& bore, const RodPlace& rod, BoreEnd end, double clock_hours) {
    const double side = end == BoreEnd::top ? 0.5 : -0.5;
    const Vec3 middle = bore.centre_K + side * bore.length_mm * bore.axis_K;
    const Vec3 along = (rod.upper_K - rod.lower_K).normalized();
    const Vec3 crossing =
        rod.lower_K + (middle - rod.lower_K).dot(bore.axis_K) / along.dot(bore.axis_K) * along;
    const Vec3 front = Vec3(-1, 0, 0) + bore.axis_K.x() * bore.axis_K;
    const Vec3 ray =
        Eigen::AngleAxisd(-clock_hours * std::numbers::pi / 6.0, bore.axis_K) * front.normalized();
    double in = 0.0;
    double out = 4.0 * bore.bore_radius_mm;
    for (int halving = 0; halving < 55; ++halving) {
        const double t = (in + out) / 2.0;
        const Vec3 centre = crossing + t * ray;
        const double to_wall = bore.bore_radius_mm - (centre - middle).norm();
        const double to_rod = (centre - rod.lower_K).cross(along).norm() - rod.radius_mm;
        (to_wall > to_rod ? in : out) = t;
    }
    return 2.0 * ((crossing + in * ray - rod.lower_K).cross(along).norm() - rod.radius_mm);
}

Bore moved_by_its_ends(const Bore& bore, const PassagePose& pose) {
    const Vec3 front = Vec3(-1, 0, 0) + bore.axis_K.x() * bore.axis_K;
    const Vec3 twelve = front.normalized();
    const Vec3 three =
        Eigen::AngleAxisd(-std::numbers::pi / 2.0, bore.axis_K) * twelve; // a quarter of the clock
    const Vec3 sideways = pose.towards_12_mm * twelve + pose.towards_3_mm * three;
    const Vec3 half =
        bore.length_mm / 2.0 * (bore.axis_K + pose.lean_12_rad * twelve + pose.lean_3_rad * three);
    const Vec3 upper = bore.centre_K + sideways + half;
    const Vec3 lower = bore.centre_K + sideways - half;
    Bore moved = bore;
    moved.centre_K = (upper + lower) / 2.0;
    moved.axis_K = (upper - lower).normalized();
    return moved;
}

namespace {

template <typename Gap>
double least_round_the_clock(const Gap& gap) {
    double best = 0.5;
    double least = gap(best);
    for (double hours = 1.0; hours <= 12.0; hours += 0.5) {
        if (const double here = gap(hours); here < least) {
            least = here;
            best = hours;
        }
    }
    for (double step = 0.25; step > 1e-4; step /= 2.0) {
        for (const double hours : {best - step, best + step}) {
            if (const double here = gap(hours); here < least) {
                least = here;
                best = hours;
            }
        }
    }
    return least;
}

} // namespace

double slow_tightest_gap(const Bore& bore, const RodPlace& rod, BoreEnd end) {
    return least_round_the_clock([&](double hours) { return slow_gap(bore, rod, end, hours); });
}

double tightest_round_gap(const Bore& bore, const RodPlace& rod, BoreEnd end) {
    return least_round_the_clock([&](double hours) { return round_gap(bore, rod, end, hours); });
}

std::optional<Spread> slow_posterior(const std::vector<LinearReading>& readings,
                                     std::mt19937_64& random, double wanted) {
    constexpr int most_draws = 3000000;
    std::normal_distribution<double> normal;
    const auto below = [](double x) { return std::erfc(-x / std::numbers::sqrt2) / 2.0; };
    double sum = 0.0;
    PoseVector first = PoseVector::Zero();
    PoseMatrix second = PoseMatrix::Zero();
    for (int draw = 0; sum < wanted; ++draw) {
        if (draw == most_draws) {
            return std::nullopt;
        }
        const PoseVector x(normal(random), normal(random), normal(random), normal(random));
        double weight = 1.0;
        for (const LinearReading& reading : readings) {
            const double y = reading.slope.dot(x);
            weight *= (reading.high ? below((*reading.high - y) / reading.u) : 1.0) -
                      (reading.low ? below((*reading.low - y) / reading.u) : 0.0);
        }
        sum += weight;
        first += weight * x;
        second += weight * x * x.transpose();
    }
    Spread spread;
    spread.mean = first / sum;
    spread.covariance = second / sum - spread.mean * spread.mean.transpose();
    return spread;
}

} // namespace rodway::twins
