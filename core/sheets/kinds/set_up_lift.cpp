#include "core/sheets/kinds/set_up_lift.h"

#include <algorithm>

#include "core/sheets/kinds/worked_figures.h"
#include "core/valvetrain/train_motion.h"

namespace rodway {
namespace {

bool has_cylinder(const Engine& engine, int number) {
    return std::any_of(engine.layout.cylinders.begin(), engine.layout.cylinders.end(),
                       [&](const Cylinder& cylinder) { return cylinder.number == number; });
}

} // namespace

std::optional<Interval> full_valve_lift_mm(const SheetFacts& facts, const std::string& valve) {
    if (const auto measured = facts.readings.number("full_valve_lift", valve)) {
        return measured;
    }
    const Train* train =
        facts.engine != nullptr ? facts.engine->train(valve_called(valve)) : nullptr;
    if (train == nullptr) {
        return std::nullopt;
    }
    const TrainMotion motion =
        train_motion(*train, facts.engine->lobes(train->position).lobe.full_lift_mm());
    return motion.full_lift ? std::optional(Interval::exactly(motion.full_lift->net_lift_mm))
                            : std::nullopt;
}

std::optional<Interval> full_lobe_lift_mm(const SheetFacts& facts, const std::string& valve) {
    if (const auto measured = facts.readings.number("lobe_lift", valve)) {
        return measured;
    }
    const ValvePosition position = valve_called(valve);
    if (facts.engine == nullptr || !has_cylinder(*facts.engine, position.cylinder)) {
        return std::nullopt;
    }
    return Interval::exactly(facts.engine->lobes(position).lobe.full_lift_mm());
}

std::optional<Interval> rocker_ratio(const SheetFacts& facts, const std::string& valve) {
    const auto measured = facts.readings.number("rocker_ratio_measured", valve);
    return measured ? measured : facts.readings.number("rocker_ratio_nominal", valve);
}

} // namespace rodway
