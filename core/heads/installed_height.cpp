#include "core/heads/installed_height.h"

#include <algorithm>
#include <set>

#include "core/units/length.h"

namespace rodway {
namespace {

const Limits heights_allowed{1.0, 500.0, "mm"};

std::optional<Error> wrong_heights(const std::vector<InstalledHeight>& heights) {
    if (heights.empty()) {
        return Error{ErrorCode::too_few_rows, "valve", "0", "1", {}, {}};
    }
    std::set<ValvePosition> seen;
    int line = 0;
    for (const InstalledHeight& each : heights) {
        if (auto bad = first_outside({{"height", each.height_mm, heights_allowed, ++line}})) {
            return bad;
        }
        if (!seen.insert(each.valve).second) {
            return Error{
                ErrorCode::duplicate_field, "valve", position_name(each.valve), {}, line, {}};
        }
    }
    return std::nullopt;
}

Interval lowest_of(const std::vector<InstalledHeight>& heights) {
    std::vector<Interval> all_mm;
    all_mm.reserve(heights.size());
    for (const InstalledHeight& each : heights) {
        all_mm.push_back(each.height_mm);
    }
    return least_of(all_mm);
}

/// A spring's load falls with its height.
Interval load_N(const ValveSpring& spring, const Interval& height_mm) {
    return {spring.load_N(height_mm.high), spring.load_N(height_mm.low)};
}

InstalledSpring installed(const ValveSpring& spring, const InstalledHeight& at,
                          const Interval& full_valve_lift_mm) {
    InstalledSpring found;
    found.valve = at.valve;
    found.height_mm = at.height_mm;
    found.seat_load_N = load_N(spring, at.height_mm);
    const Interval open_mm = at.height_mm - full_valve_lift_mm;
    found.open_load_N = load_N(spring, open_mm);
    if (spring.bind_height_mm) {
        found.to_bind_mm = open_mm - Interval::exactly(*spring.bind_height_mm);
    }
    return found;
}

/// The others' lowest counts: a height isn't above itself.
Interval above_lowest(const std::vector<InstalledHeight>& heights, std::size_t at) {
    std::vector<Interval> others;
    for (std::size_t other = 0; other < heights.size(); ++other) {
        if (other != at) {
            others.push_back(heights[other].height_mm);
        }
    }
    return others.empty() ? Interval::exactly(0.0)
                          : not_below_zero(heights[at].height_mm - least_of(others));
}

} // namespace

Result<InstalledHeights> installed_heights(const std::vector<InstalledHeight>& heights,
                                           const ValveSpring& spring,
                                           const Interval& full_valve_lift_mm) {
    if (const auto bad = wrong_heights(heights)) {
        return *bad;
    }
    const double least_mm = lowest_of(heights).low;
    if (const auto bad = first_outside(
            {{"full_valve_lift", full_valve_lift_mm, {0.0, std::min(50.0, least_mm), "mm"}}})) {
        return *bad;
    }
    // Each valve's own height stands in the place of the spring's.
    ValveSpring alike = spring;
    if (!alike.loads.empty()) {
        alike.installed_height_mm = alike.loads.front().height_mm;
    }
    const auto good = check_spring(alike);
    if (!good) {
        return good.error();
    }
    InstalledHeights found;
    std::vector<Interval> all_mm;
    std::vector<Interval> seat_N;
    for (std::size_t at = 0; at < heights.size(); ++at) {
        InstalledSpring one = installed(alike, heights[at], full_valve_lift_mm);
        one.above_lowest_mm = above_lowest(heights, at);
        all_mm.push_back(one.height_mm);
        seat_N.push_back(one.seat_load_N);
        found.valves.push_back(one);
    }
    found.lowest_mm = lowest_of(heights);
    found.height_spread_mm = spread_of(all_mm);
    found.seat_load_spread_N = spread_of(seat_N);
    return found;
}

FigureBand usual_to_bind_mm() {
    return {Length::inches(0.060).in_mm(), {}, FigureSource::common_practice};
}

} // namespace rodway
