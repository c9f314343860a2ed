#pragma once

#include <cmath>
#include <functional>
#include <vector>

#include "core/piston/valve_drops.h"

namespace rodway::twins {

/// Piston below its top, mm, from the places of crank pin and piston pin; no offset.
inline double slow_travel_mm(double stroke_mm, double rod_mm, double crank_deg) {
    const double r = stroke_mm / 2.0;
    const double across = r * std::sin(radians(crank_deg));
    const double along = r * std::cos(radians(crank_deg));
    return r + rod_mm - (along + std::sqrt(rod_mm * rod_mm - across * across));
}

/// Drop between its readings: travel along the valve taken off, a straight line, travel put back.
inline double slow_drop_mm(const std::vector<ValveDrop>& drops, double stroke_mm, double rod_mm,
                           double cos_valve_angle, double crank_deg) {
    const auto travel = [&](double angle) {
        return slow_travel_mm(stroke_mm, rod_mm, angle) / cos_valve_angle;
    };
    for (std::size_t at = 1; at < drops.size(); ++at) {
        const double left = drops[at - 1].after_overlap.in_deg();
        const double right = drops[at].after_overlap.in_deg();
        if (crank_deg >= left && crank_deg <= right) {
            const double at_left = drops[at - 1].from_seat_mm - travel(left);
            const double at_right = drops[at].from_seat_mm - travel(right);
            return travel(crank_deg) +
                   (at_left * (right - crank_deg) + at_right * (crank_deg - left)) / (right - left);
        }
    }
    return std::nan("");
}

struct SlowLeast {
    double mm = 1e9;
    double at_deg = 0.0;
};

/// The least of a curve over [from, to] degrees, looked at every 0.001 degree.
inline SlowLeast slow_least(double from_deg, double to_deg,
                            const std::function<double(double)>& clearance_mm) {
    SlowLeast least;
    const int looks = static_cast<int>(std::lround((to_deg - from_deg) * 1000.0));
    for (int look = 0; look <= looks; ++look) {
        const double at_deg = from_deg + (to_deg - from_deg) * look / looks;
        const double here = clearance_mm(at_deg);
        if (here < least.mm) {
            least = {here, at_deg};
        }
    }
    return least;
}

} // namespace rodway::twins
