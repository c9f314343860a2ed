#include "core/barring/open_valves.h"

#include "core/units/crank_arc.h"

namespace rodway {

std::vector<ValveStanding> valves_at(const Engine& engine, CrankAngle crank) {
    std::vector<ValveStanding> standing;
    if (!check_crank_angle(crank, "crank")) {
        return standing;
    }
    for (const Train& train : engine.trains) {
        ValveStanding valve;
        valve.position = train.position;
        valve.lobe_lift_mm = engine.lobe_lift_mm(train.position, crank);
        valve.on_heel = valve.lobe_lift_mm <= heel_mm;
        const auto closing = Linkage::close(train);
        const auto pose = closing.linkage ? closing.linkage->at(valve.lobe_lift_mm) : std::nullopt;
        valve.train_closes = pose.has_value();
        if (pose) {
            valve.valve_lift_mm = closing.linkage->valve_lift_mm(*pose);
            // Without lash, what a smoothed table rings by on its heel would count as open.
            valve.open = !valve.on_heel && valve.valve_lift_mm > 0.0;
        }
        standing.push_back(valve);
    }
    return standing;
}

} // namespace rodway
