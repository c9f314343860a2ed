#include "core/bottom_end/turning_torque.h"

#include <string>

namespace rodway {
namespace {

std::vector<TurningStep> steps_of(const std::vector<TurningReading>& readings) {
    constexpr double rounding_Nm = 1e-9;
    std::vector<TurningStep> steps;
    std::optional<Interval> before;
    int things_added = 0;
    for (const TurningReading& reading : readings) {
        TurningStep step{reading.after, reading.cylinder, reading.torque_Nm, {}, 1, false, false};
        ++things_added;
        step.things_added = things_added;
        if (reading.torque_Nm) {
            if (before) {
                step.added_Nm = *reading.torque_Nm - *before;
                step.eased = step.added_Nm->high < -rounding_Nm;
            }
            before = reading.torque_Nm;
            things_added = 0;
        }
        steps.push_back(step);
    }
    return steps;
}

} // namespace

Result<TurningTorque> turning_torque(const std::vector<TurningReading>& readings) {
    if (readings.empty()) {
        return Error{ErrorCode::too_few_rows, "torque", "0", "1", {}, {}};
    }
    for (std::size_t at = 0; at < readings.size(); ++at) {
        if (readings[at].torque_Nm) {
            if (auto bad = wrong_interval("torque", *readings[at].torque_Nm, {-10.0, 500.0, "Nm"},
                                          static_cast<int>(at) + 1)) {
                return *bad;
            }
        }
    }
    TurningTorque torque;
    torque.steps = steps_of(readings);
    std::vector<RowReading> row;
    for (std::size_t at = 0; at < torque.steps.size(); ++at) {
        const TurningStep& step = torque.steps[at];
        if (step.after == AfterFitting::piston && step.added_Nm && step.things_added == 1) {
            row.push_back({std::to_string(step.cylinder.value_or(0)), *step.added_Nm});
            torque.piston_steps.push_back(at);
        }
    }
    if (row.empty()) {
        return torque;
    }
    const auto statistics = row_statistics(row);
    if (!statistics) {
        return statistics.error();
    }
    torque.pistons = *statistics;
    for (const OddReading& odd : statistics->odd) {
        torque.steps[torque.piston_steps[odd.index]].odd = true;
    }
    return torque;
}

} // namespace rodway
