#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace rodway {

/// Searches along a straight line for the least of a distance less a radius that runs evenly. Both
/// bound what they have not looked at, and stop when that can't be less than the best by more than
/// `least_along_error_mm`. Stations and values in millimetres.
struct LeastAlong {
    double at_mm = 0.0;
    double value_mm = std::numeric_limits<double>::infinity();
};
constexpr double least_along_error_mm = 1e-11;

/// Least of distance(t) - slope·t for t in [from, to], where `distance` is how far the point at
/// station t of a straight line is from some fixed set. Values above `known_mm` needn't be exact.
///
/// For each point of the set, distance² is t² plus something linear; so for the whole set
/// distance² - t² is the least of linear functions, and concave. Over [a, b] it lies above its
/// chord:  distance² ≥ (t - m)² + q, which has the same value at a and b. That is the distance
/// from a single point at station m, √q off the line, and its least less slope·t stands where
/// t - m = slope·√(q/(1 - slope²)). Where the set is that point, one look finds it.
template <typename Distance>
LeastAlong least_from_fixed_set(const Distance& distance, double from, double to, double slope,
                                double known_mm = std::numeric_limits<double>::infinity()) {
    struct Piece {
        double a, b, at_a, at_b;
    };
    LeastAlong best;
    const auto look = [&](double t) {
        const double d = distance(t);
        if (d - slope * t < best.value_mm) {
            best = {t, d - slope * t};
        }
        return d;
    };
    Piece first{from, to, look(from), look(to)};
    // A radius that grows faster than the axis gets on: the thick end rules.
    if (!(to > from) || !(std::abs(slope) < 1.0)) {
        return best;
    }
    // A piece is cut in two at least a tenth from its ends, so that no chain of cuts is longer.
    std::array<Piece, 512> open;
    std::size_t waiting = 0;
    open[waiting++] = first;
    constexpr int most_looks = 20000;
    for (int looks = 0; waiting > 0 && looks < most_looks; ++looks) {
        const Piece piece = open[--waiting];
        const double length = piece.b - piece.a;
        const double m = (piece.a + piece.b) / 2.0 -
                         (piece.at_b - piece.at_a) * (piece.at_b + piece.at_a) / (2.0 * length);
        const double q = piece.at_a * piece.at_a - (piece.a - m) * (piece.a - m);
        const double off = std::sqrt(std::max(0.0, q));
        double t = std::clamp(m + slope * off / std::sqrt(1.0 - slope * slope), piece.a, piece.b);
        const double least =
            q > 0.0 ? std::hypot(t - m, off) - slope * t
                    : -std::max(slope * piece.a, slope * piece.b); // the chord dips below nothing
        if (!(least < std::min(best.value_mm, known_mm) - least_along_error_mm) || length < 1e-10 ||
            waiting + 2 > open.size()) {
            continue;
        }
        t = std::clamp(t, piece.a + 0.1 * length, piece.b - 0.1 * length);
        const double at_t = look(t);
        open[waiting++] = {piece.a, t, piece.at_a, at_t};
        open[waiting++] = {t, piece.b, at_t, piece.at_b};
    }
    return best;
}

struct ValueAndSlope {
    double value_mm;
    double slope;
};

/// Least of a convex function for t in [from, to], given its value and slope (one of them, at a
/// kink). Between two looks it lies above both tangents; where they meet is the next look.
template <typename Convex>
LeastAlong least_of_convex(const Convex& convex, double from, double to) {
    LeastAlong best;
    const auto look = [&](double t) {
        const ValueAndSlope found = convex(t);
        if (found.value_mm < best.value_mm) {
            best = {t, found.value_mm};
        }
        return found;
    };
    double a = from;
    double b = to;
    ValueAndSlope at_a = look(a);
    if (!(to > from)) {
        return best;
    }
    ValueAndSlope at_b = look(b);
    constexpr int most_looks = 200;
    for (int looks = 0; looks < most_looks; ++looks) {
        if (!(at_a.slope < 0.0 && at_b.slope > 0.0) || !(b - a > 1e-12)) {
            break;
        }
        const double meet = (at_b.value_mm - at_a.value_mm + at_a.slope * a - at_b.slope * b) /
                            (at_a.slope - at_b.slope);
        const double least = at_a.value_mm + at_a.slope * (meet - a);
        if (!(least < best.value_mm - least_along_error_mm)) {
            break;
        }
        // Every third look halves, so that a lopsided function can't hold the search up.
        const double t = looks % 3 == 2 ? (a + b) / 2.0 : std::clamp(meet, a, b);
        const ValueAndSlope at_t = look(t);
        if (at_t.slope == 0.0) {
            break;
        }
        (at_t.slope < 0.0 ? a : b) = t;
        (at_t.slope < 0.0 ? at_a : at_b) = at_t;
    }
    return best;
}

/// The searches above stop by value, which is flat at its least and leaves the station open by some
/// 3e-5 mm. This closes in, by false position, on where the slope passes from falling to rising
/// near `at`, to 1e-10 mm; `at` itself where it doesn't (the end of a section, a kink).
template <typename Slope>
double level_station(const Slope& slope, double at, double from, double to) {
    constexpr double reach_mm = 1e-3;
    double a = std::max(from, at - reach_mm);
    double b = std::min(to, at + reach_mm);
    double at_a = slope(a);
    double at_b = slope(b);
    if (!(at_a < 0.0 && at_b > 0.0)) {
        return at;
    }
    constexpr int most_looks = 60;
    for (int looks = 0; looks < most_looks && b - a > 1e-10; ++looks) {
        const double t = looks % 4 == 3 ? (a + b) / 2.0 : (a * at_b - b * at_a) / (at_b - at_a);
        const double at_t = slope(t);
        if (at_t == 0.0 || !(t > a && t < b)) {
            return t;
        }
        // The other end's slope is halved, lest it stay there for ever (the Illinois rule).
        if (at_t < 0.0) {
            a = t;
            at_a = at_t;
            at_b /= 2.0;
        } else {
            b = t;
            at_b = at_t;
            at_a /= 2.0;
        }
    }
    return (a + b) / 2.0;
}

} // namespace rodway
