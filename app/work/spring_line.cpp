#include "app/work/spring_line.h"

#include <algorithm>

#include "core/barring/valve_arcs.h"
#include "core/valvetrain/train_motion.h"

namespace rodway {
namespace {

SpringLine spring_line(const Engine& engine, const ValvePosition& valve) {
    SpringLine line;
    line.valve = valve;
    line.spring = engine.spring(valve);
    line.lobe_estimated = engine.lobes(valve).lobe.estimated();
    const Train* train = engine.train(valve);
    if (!train) {
        line.status = SpringStatus::no_train;
        return line;
    }
    const TrainMotion motion = train_motion(*train, engine.lobes(valve).lobe.full_lift_mm());
    line.train = motion.status;
    if (motion.status == TrainStatus::answered) {
        line.full_valve_lift_mm = motion.full_lift->net_lift_mm;
    }
    if (!line.spring) {
        line.status = SpringStatus::no_spring;
    } else if (!line.full_valve_lift_mm) {
        line.status = SpringStatus::train_does_not_close;
    } else {
        line.open = at_full_lift(*line.spring, *line.full_valve_lift_mm);
    }
    return line;
}

} // namespace

bool SpringLine::beyond_loads() const {
    // A height typed as listed, but in the other unit, is not beyond it.
    constexpr double rounding_mm = 1e-6;
    return spring && (spring->installed_height_mm > spring->loads.front().height_mm + rounding_mm ||
                      (open && open->height_mm < spring->loads.back().height_mm - rounding_mm));
}

std::vector<SpringLine> spring_lines(const Engine& engine) {
    std::vector<SpringLine> lines;
    for (const ValvePosition& valve : all_valves(engine)) {
        lines.push_back(spring_line(engine, valve));
    }
    return lines;
}

bool all_answered(const std::vector<SpringLine>& lines) {
    return std::all_of(lines.begin(), lines.end(), [](const SpringLine& line) {
        return line.status == SpringStatus::answered;
    });
}

} // namespace rodway
