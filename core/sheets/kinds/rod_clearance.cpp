#include <algorithm>

#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/sheets/rod_gap_position.h"
#include "core/tubes/tube_wall.h"

namespace rodway {
namespace {

/// The least gap felt at one valve: over a whole turn there may be less, never more.
struct LeastGap {
    std::string valve;
    Interval gap_mm;
};

std::vector<LeastGap> least_gaps(const TakenReadings& readings) {
    std::vector<LeastGap> least;
    for (const Taken& taken : readings.of("rod_gap")) {
        const auto gap_mm = taken.range();
        const auto place = parse_rod_gap_position(sheet_position_text(taken.place));
        if (!gap_mm || !place) {
            continue;
        }
        const std::string valve = position_name(place->valve);
        const auto there = std::find_if(least.begin(), least.end(),
                                        [&](const LeastGap& one) { return one.valve == valve; });
        if (there == least.end()) {
            least.push_back({valve, *gap_mm});
        } else {
            there->gap_mm = least_of({there->gap_mm, *gap_mm});
        }
    }
    return least;
}

void add_gaps(WorkedFigures& figures, const TakenReadings& readings) {
    for (const LeastGap& least : least_gaps(readings)) {
        figures.add("rod_gap_least", least.valve, least.gap_mm);
        const auto written = readings.number("rod_clearance", least.valve);
        if (written && written->low > least.gap_mm.high + 1e-9) {
            figures.point_out(PointedOut::methods_differ, "rod_clearance", {least.valve},
                              {written->middle(), least.gap_mm.low, least.gap_mm.high});
        }
    }
}

void add_walls(WorkedFigures& figures, const TakenReadings& readings) {
    for (const std::string& valve : valves_read(readings, {"passage_wall_before"})) {
        const auto before_mm = readings.number("passage_wall_before", valve);
        const auto removed_mm = readings.number("passage_metal_removed", valve);
        if (!before_mm || !removed_mm) {
            continue;
        }
        if (const auto wall = tube_wall({*before_mm, not_below_zero(*removed_mm), {}}, 0.0)) {
            figures.add_beside_reading("passage_wall_left", valve, wall->left_mm);
        }
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    add_gaps(figures, facts.readings);
    add_walls(figures, facts.readings);
    return figures.outcome();
}

/// .010 in at the closest point; a light touch is never a limit here.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    constexpr double least_mm = 0.010 * inch_mm;
    return {common_practice("rod_clearance", least_mm, {}),
            common_practice("rod_gap_least", least_mm, {})};
}

} // namespace

SheetKind rod_clearance_sheet() {
    const Origin follows = Origin::worked_out;
    return {"rod_clearance",
            {
                {"rod_clearance", Form::clearance, Place::valve, "in"},
                {"rod_gap", Form::clearance, Place::rod_gap, "in"},
                {"rod_gap_least", Form::length, Place::valve, "in", "", follows},
                {"rod_clearance_angle", Form::crank_angle, Place::valve, "deg"},
                {"rod_touch_surface", Form::words, Place::valve},
                {"rod_touch_height", Form::length, Place::valve, "in"},
                {"rod_touch_clock", Form::words, Place::valve},
                {"passage_size", Form::length, Place::valve, "in"},
                {"passage_wall_before", Form::length, Place::valve, "in"},
                {"passage_metal_removed", Form::length, Place::valve, "in"},
                {"passage_wall_left", Form::length, Place::valve, "in"},
                {"rod_clearance_method", Form::choice, Place::valve, "",
                 "feeler pin_gauge tape dye light"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
