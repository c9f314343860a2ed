#include "core/barring/open_valves.h"

namespace rodway {

std::vector<ValveStanding> valves_at(const Engine& engine, CrankAngle crank) {
    std::vector<ValveStanding> standing;
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
            valve.open = valve.valve_lift_mm > 0.0;
        }
        standing.push_back(valve);
    }
    return standing;
}

} // namespace rodway
