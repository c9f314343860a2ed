#include "core/bottom_end/turning_torque.h"

#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// Pistons in the order in which they were first written down, which is that of fitting.
std::vector<TurningReading> steps_written(const TakenReadings& readings) {
    std::vector<TurningReading> steps;
    steps.push_back({AfterFitting::mains, {}, readings.number("turning_torque_crank")});
    for (const Taken& taken : readings.of("turning_torque_with_piston")) {
        steps.push_back({AfterFitting::piston, taken.place.cylinder(), taken.range()});
    }
    steps.push_back({AfterFitting::other, {}, readings.number("turning_torque_short_block")});
    return steps;
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    const auto torque = turning_torque(steps_written(facts.readings));
    if (!torque) {
        return outcome;
    }
    for (const TurningStep& step : torque->steps) {
        // Where a step before wasn't read, the torque can't be laid at this one.
        if (!step.added_Nm || step.things_added != 1) {
            continue;
        }
        if (step.after == AfterFitting::piston) {
            outcome.figures.push_back({"turning_torque_added",
                                       std::to_string(step.cylinder.value_or(0)), *step.added_Nm});
        } else if (step.after == AfterFitting::other) {
            outcome.figures.push_back({"turning_torque_after_pistons", "", *step.added_Nm});
        }
        if (step.odd) {
            outcome.findings.push_back({PointedOut::odd_one_out,
                                        "turning_torque_added",
                                        {std::to_string(step.cylinder.value_or(0))},
                                        {step.added_Nm->middle(), torque->pistons->median},
                                        Dimension::torque});
        }
    }
    return outcome;
}

} // namespace

SheetKind turning_torque_sheet() {
    return {"turning_torque",
            {
                {"turning_torque_crank", Form::torque, Place::engine, "in-lb"},
                {"turning_torque_with_piston", Form::torque, Place::cylinder, "in-lb"},
                {"turning_torque_added", Form::torque, Place::cylinder, "in-lb", "",
                 Origin::worked_out},
                {"turning_torque_short_block", Form::torque, Place::engine, "in-lb"},
                {"turning_torque_after_pistons", Form::torque, Place::engine, "in-lb", "",
                 Origin::worked_out},
            },
            work_out};
}

} // namespace rodway
