#include "core/barring/full_lift_order.h"

#include <algorithm>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct FullLift {
    double ahead_deg = 0.0; ///< of the start; a little below 0 if it was only just passed
    ValvePosition valve;
};

} // namespace

Result<std::vector<FullLiftStop>> full_lift_order(const Engine& engine, CrankAngle from,
                                                  double together_deg) {
    if (const auto checked = check_crank_angle(from, "crank"); !checked) {
        return checked.error();
    }
    constexpr double most_deg = 10.0;
    if (!(together_deg >= 0.0 && together_deg <= most_deg)) {
        return Error{ErrorCode::out_of_range,
                     "together",
                     exact_text(together_deg),
                     {},
                     std::nullopt,
                     Limits{0.0, most_deg, "crank_deg"}};
    }
    const auto arcs = valve_arcs(engine);
    if (!arcs) {
        return arcs.error();
    }
    std::vector<FullLift> lifts;
    for (const ValveArcs& valve : *arcs) {
        const double ahead = degrees_ahead(from, valve.full_lift);
        // Somebody who stands at a stop must not be sent round the whole cycle for it.
        lifts.push_back(
            {ahead > 720.0 - together_deg / 2.0 ? ahead - 720.0 : ahead, valve.position});
    }
    std::stable_sort(lifts.begin(), lifts.end(), [](const FullLift& a, const FullLift& b) {
        return a.ahead_deg < b.ahead_deg;
    });
    std::vector<FullLiftStop> stops;
    double stood_deg = 0.0;
    for (std::size_t first = 0; first < lifts.size();) {
        std::size_t last = first;
        FullLiftStop stop;
        while (last < lifts.size() &&
               lifts[last].ahead_deg <= lifts[first].ahead_deg + together_deg) {
            stop.valves.push_back(lifts[last++].valve);
        }
        const double ahead =
            std::max(0.0, (lifts[first].ahead_deg + lifts[last - 1].ahead_deg) / 2.0);
        std::sort(stop.valves.begin(), stop.valves.end());
        stop.at = (from + CrankAngle::deg(ahead)).in_cycle();
        stop.turn_deg = ahead - stood_deg;
        stood_deg = ahead;
        stops.push_back(stop);
        first = last;
    }
    return stops;
}

} // namespace rodway
