#include "core/piston/least_of_row.h"

#include <algorithm>
#include <numeric>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::optional<Error> wrong_reading(const ClearanceAtAngle& reading, int line) {
    return first_outside({{"angle",
                           Interval::exactly(reading.after_overlap.in_deg()),
                           {-180.0, 180.0, "crank_deg"},
                           line},
                          {"clearance", reading.clearance_mm, {0.0, 100.0, "mm"}, line}});
}

/// The places of the readings, angles rising.
std::vector<std::size_t> by_angle(const std::vector<ClearanceAtAngle>& readings) {
    std::vector<std::size_t> order(readings.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return readings[a].after_overlap < readings[b].after_overlap;
    });
    return order;
}

struct Bottom {
    double deg = 0.0;
    double clearance_mm = 0.0;
};

/// Of the parabola through three points, the middle one not above its neighbours and below one of
/// them. Newton's form: y = y0 + s·(x - x0) + c·(x - x0)·(x - x1).
Bottom parabola_bottom(const Bottom& a, const Bottom& b, const Bottom& c) {
    const double first_slope = (b.clearance_mm - a.clearance_mm) / (b.deg - a.deg);
    const double second_slope = (c.clearance_mm - b.clearance_mm) / (c.deg - b.deg);
    const double curving = (second_slope - first_slope) / (c.deg - a.deg);
    const double at_deg = (a.deg + b.deg) / 2.0 - first_slope / (2.0 * curving);
    return {at_deg, a.clearance_mm + first_slope * (at_deg - a.deg) +
                        curving * (at_deg - a.deg) * (at_deg - b.deg)};
}

} // namespace

Result<LeastOfRow> least_of_row(const std::vector<ClearanceAtAngle>& readings) {
    if (readings.size() < 3) {
        return Error{
            ErrorCode::too_few_rows, "clearance", std::to_string(readings.size()), "3", {}, {}};
    }
    int line = 0;
    for (const ClearanceAtAngle& reading : readings) {
        if (const auto bad = wrong_reading(reading, ++line)) {
            return *bad;
        }
    }
    const std::vector<std::size_t> order = by_angle(readings);
    for (std::size_t at = 1; at < order.size(); ++at) {
        const double deg = readings[order[at]].after_overlap.in_deg();
        if (deg == readings[order[at - 1]].after_overlap.in_deg()) {
            return Error{ErrorCode::order_wrong,          "angle", exact_text(deg), {},
                         static_cast<int>(order[at]) + 1, {}};
        }
    }
    const auto middle = [&](std::size_t at) {
        const ClearanceAtAngle& reading = readings[order[at]];
        return Bottom{reading.after_overlap.in_deg(), reading.clearance_mm.middle()};
    };
    std::size_t lowest = 0;
    for (std::size_t at = 1; at < order.size(); ++at) {
        lowest = middle(at).clearance_mm < middle(lowest).clearance_mm ? at : lowest;
    }
    std::size_t last_as_low = lowest;
    while (last_as_low + 1 < order.size() &&
           middle(last_as_low + 1).clearance_mm == middle(lowest).clearance_mm) {
        ++last_as_low;
    }
    LeastOfRow found;
    found.lowest = order[lowest];
    found.at_end = lowest == 0 || last_as_low + 1 == order.size();
    if (found.at_end) {
        return found;
    }
    const Bottom bottom = parabola_bottom(middle(lowest - 1), middle(lowest), middle(lowest + 1));
    const Interval read_mm = readings[order[lowest]].clearance_mm;
    found.least_mm =
        Interval{std::max(0.0, bottom.clearance_mm - read_mm.half_width()), read_mm.high};
    found.after_overlap = CrankAngle::deg(bottom.deg);
    return found;
}

} // namespace rodway
