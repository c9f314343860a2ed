#include "tests/twins/bounded_search.h"

#include <algorithm>
#include <queue>
#include <vector>

namespace rodway::twins {
namespace {

constexpr int most_looks = 2000000;

struct Piece {
    double a, b;
    double f_a, f_b;
    double least;

    bool operator<(const Piece& other) const { return least > other.least; } // least on top
};

Piece piece(double a, double b, double f_a, double f_b, const Reach& reach) {
    return {a, b, f_a, f_b, first_order_least(f_a, f_b, reach(a, b))};
}

} // namespace

double first_order_least(double f_a, double f_b, double reach) {
    return (f_a + f_b - reach) / 2.0;
}

double second_order_least(double f_a, double f_b, double h, double curving) {
    const auto parabola = [&](double x) {
        return f_a + (f_b - f_a) * x / h - curving * x * (h - x) / 2.0;
    };
    double least = std::min(f_a, f_b);
    if (curving > 0.0) {
        const double lowest = h / 2.0 - (f_b - f_a) / (h * curving);
        if (lowest > 0.0 && lowest < h) {
            least = std::min(least, parabola(lowest));
        }
    }
    return least;
}

BoundedMinimum certify_steps(const Curve& curve, double from, double to, int steps,
                             const Reach& reach) {
    BoundedMinimum found{from, curve(from), curve(from), 1};
    double last = found.value;
    for (int step = 1; step <= steps; ++step) {
        const double a = from + (to - from) * (step - 1) / steps;
        const double b = from + (to - from) * step / steps;
        const double here = curve(b);
        found.least = std::min(found.least, first_order_least(last, here, reach(a, b)));
        if (here < found.value) {
            found.value = here;
            found.at = b;
        }
        last = here;
        ++found.looks;
    }
    return found;
}

BoundedMinimum bounded_search(const Curve& curve, double from, double to, const Reach& reach,
                              double within) {
    const double first = curve(from);
    BoundedMinimum found{from, first, 0.0, 2};
    const auto offer = [&](double at, double value) {
        if (value < found.value) {
            found.value = value;
            found.at = at;
        }
    };
    const double last = curve(to);
    offer(to, last);
    std::priority_queue<Piece> pieces;
    pieces.push(piece(from, to, first, last, reach));
    while (pieces.top().least < found.value - within && found.looks < most_looks) {
        const Piece lowest = pieces.top();
        pieces.pop();
        const double middle = (lowest.a + lowest.b) / 2.0;
        const double value = curve(middle);
        ++found.looks;
        offer(middle, value);
        pieces.push(piece(lowest.a, middle, lowest.f_a, value, reach));
        pieces.push(piece(middle, lowest.b, value, lowest.f_b, reach));
    }
    found.least = std::min(found.value, pieces.top().least);
    return found;
}

} // namespace rodway::twins
