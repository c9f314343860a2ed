#pragma once

#include <functional>

namespace rodway::twins {

/// How far a function may travel between two places: its Lipschitz constant times their distance,
/// or the length of a path on which it changes no faster than 1.
using Reach = std::function<double(double from, double to)>;
using Curve = std::function<double(double at)>;

/// Nothing between two places is less than this: (f(a) + f(b) - reach)/2.
/// Source: Piyavskii (1972), Shubert (1972); the two saw teeth meet there.
[[nodiscard]] double first_order_least(double f_a, double f_b, double reach);

/// Nothing in an interval of width `h` is less than this, where f'' ≤ `curving`, or where f is the
/// least of functions with f'' ≤ `curving`: the least of chord - curving·(x - a)(b - x)/2.
[[nodiscard]] double second_order_least(double f_a, double f_b, double h, double curving);

struct BoundedMinimum {
    double at = 0.0;
    double value = 0.0; ///< attained
    double least = 0.0; ///< proved: nothing in the interval is less
    int looks = 0;
};

/// Cuts into `steps` equal steps and proves each by the first order.
[[nodiscard]] BoundedMinimum certify_steps(const Curve& curve, double from, double to, int steps,
                                           const Reach& reach);

/// Halves whichever piece is proved least until value and bound are `within` of each other.
[[nodiscard]] BoundedMinimum bounded_search(const Curve& curve, double from, double to,
                                            const Reach& reach, double within);

} // namespace rodway::twins
