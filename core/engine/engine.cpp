#include "core/engine/engine.h"

#include <algorithm>

#include "core/castings/moving_castings.h"

namespace rodway {

const CamLobes& Engine::lobes(const ValvePosition& valve) const {
    const auto own = own_lobes.find(valve);
    return own == own_lobes.end() ? lobes(valve.kind) : own->second;
}

const ValveSpring* Engine::spring(const ValvePosition& valve) const {
    const auto found = springs.find(valve);
    return found == springs.end() ? nullptr : &found->second;
}

CrankAngle Engine::full_lift_angle(const ValvePosition& valve) const {
    const CrankAngle firing = layout.firing_angle(valve.cylinder);
    const CrankAngle overlap = firing + CrankAngle::deg(360.0);
    const double centreline = lobes(valve).centreline_crank_deg;
    return (overlap + CrankAngle::deg(valve.kind == ValveKind::intake ? centreline : -centreline))
        .in_cycle();
}

double Engine::lobe_lift_mm(const ValvePosition& valve, CrankAngle crank) const {
    double from_full_lift = (crank - full_lift_angle(valve)).in_cycle().in_deg();
    if (from_full_lift > 360.0) {
        from_full_lift -= 720.0;
    }
    return lobes(valve).lobe.lift_mm(cam_angle(CrankAngle::deg(from_full_lift)));
}

const Train* Engine::train(const ValvePosition& valve) const {
    const auto found = std::find_if(trains.begin(), trains.end(), [&](const Train& candidate) {
        return candidate.position == valve;
    });
    return found == trains.end() ? nullptr : &*found;
}

std::vector<ValvePosition> Engine::valves_without_train() const {
    std::vector<ValvePosition> missing;
    for (const Cylinder& cylinder : layout.cylinders) {
        for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
            const ValvePosition valve{cylinder.number, kind, 1};
            if (!train(valve)) {
                missing.push_back(valve);
            }
        }
    }
    return missing;
}

Result<Vec3> Engine::intake_movement_K(std::size_t bank) const {
    std::vector<IntakeFace> faces;
    for (std::size_t at = 0; at < flanges.size(); ++at) {
        if (flanges[at] && (one_intake_for_all || at == bank)) {
            const FlangeSetting& flange = *flanges[at];
            faces.push_back({layout.banks[at].frame.to_block(flange.normal_K),
                             flange.gasket_mm - flange.gasket_when_located_mm});
        }
    }
    const Result<Vec3> moved_E = intake_movement_E(faces);
    if (!moved_E) {
        return moved_E.error();
    }
    return layout.banks[bank].frame.from_block(*moved_E);
}

Result<Bore> Engine::bore_in_place(const Train& train, const Passage& passage) const {
    Bore bore = passage.bore;
    if (passage.casting == Casting::intake) {
        const Result<Vec3> moved = intake_movement_K(train.bank);
        if (!moved) {
            return moved.error();
        }
        bore.centre_K += *moved;
    }
    return bore;
}

Result<Solid> Engine::solid_in_place(const Obstacle& obstacle) const {
    if (obstacle.casting != Casting::intake) {
        return obstacle.solid;
    }
    const Result<Vec3> moved = intake_movement_K(obstacle.bank);
    if (!moved) {
        return moved.error();
    }
    return shifted(obstacle.solid, *moved);
}

Result<Bore> Engine::tube_in_place(const Train& train) const {
    return bore_in_place(train, train.tube);
}

double Engine::outboard_y_sign(const Train& train) const {
    const Bank& bank = layout.banks[train.bank];
    if (bank.lean_deg != 0.0) {
        return bank.lean_deg > 0.0 ? 1.0 : -1.0;
    }
    return bank.frame.to_block(train.tube.bore.centre_K).y() >= 0.0 ? 1.0 : -1.0;
}

} // namespace rodway
