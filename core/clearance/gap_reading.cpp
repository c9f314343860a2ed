#include "core/clearance/gap_reading.h"

#include "core/units/crank_arc.h"
#include "core/units/within.h"

namespace rodway {

Result<Done> check_gap_reading(const GapReading& reading) {
    constexpr double greatest_gap_mm = 25.0;
    const std::string path = "readings/" + reading.name;
    if (reading.place == TurnPlace::at_crank_angle) {
        if (auto checked = check_crank_angle(reading.crank, path + "/crank"); !checked) {
            return checked.error();
        }
    }
    if (reading.clock_hours) {
        if (auto error = outside(path + "/clock", *reading.clock_hours, {0.0, 12.0, "h"})) {
            return *error;
        }
    }
    for (const auto& [limit, field] :
         {std::pair{reading.low_mm, "/low"}, std::pair{reading.high_mm, "/high"}}) {
        if (!limit) {
            continue;
        }
        if (auto error = outside(path + field, *limit, {0.0, greatest_gap_mm, "mm"})) {
            return *error;
        }
    }
    if (!reading.low_mm && !reading.high_mm) {
        return Error{ErrorCode::missing_field, path + "/low", {}, {}, {}, {}};
    }
    if (reading.low_mm && reading.high_mm) {
        if (auto error = outside(path + "/low", *reading.low_mm, {0.0, *reading.high_mm, "mm"})) {
            return *error;
        }
    }
    return Done{};
}

double lobe_lift_mm(const Engine& engine, const GapReading& reading) {
    switch (reading.place) {
        case TurnPlace::on_heel:
            return 0.0;
        case TurnPlace::at_full_lift:
            return engine.lobes(reading.valve).lobe.full_lift_mm();
        case TurnPlace::at_crank_angle:
            break;
    }
    return engine.lobe_lift_mm(reading.valve, reading.crank);
}

} // namespace rodway
