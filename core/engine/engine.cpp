#include "core/engine/engine.h"

#include <algorithm>

#include "core/castings/moving_castings.h"

namespace rodway {
namespace {

struct MovedBy {
    Vec3 moved_K;

    Solid operator()(HalfSpace plane) const {
        plane.point_K += moved_K;
        return plane;
    }
    Solid operator()(RoundBar bar) const {
        bar.from_K += moved_K;
        bar.to_K += moved_K;
        return bar;
    }
    Solid operator()(Cuboid box) const {
        box.centre_K += moved_K;
        return box;
    }
    Solid operator()(Capsule capsule) const {
        capsule.from_K += moved_K;
        capsule.to_K += moved_K;
        return capsule;
    }
};

} // namespace

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

void Engine::set_head(std::size_t bank, const HeadSetting& setting) {
    if (bank >= heads.banks_.size()) {
        heads.banks_.resize(bank + 1);
    }
    const double raised_mm = setting.raised_mm() - heads.banks_[bank].raised_mm();
    heads.banks_[bank] = setting;
    for (Train& train : trains) {
        if (train.bank == bank) {
            train.rocker.pivot_K.z() += raised_mm;
            if (train.valve.tip_K) {
                train.valve.tip_K->z() += raised_mm;
            }
        }
    }
}

Vec3 Engine::head_movement_K(std::size_t bank) const {
    return {0.0, 0.0, heads.of(bank).raised_mm()};
}

Result<Vec3> Engine::intake_movement_K(std::size_t bank) const {
    std::vector<IntakeFace> faces;
    for (std::size_t at = 0; at < flanges.size(); ++at) {
        if (flanges[at] && (one_intake_for_all || at == bank)) {
            const FlangeSetting& flange = *flanges[at];
            faces.push_back({layout.banks[at].frame.to_block(flange.normal_K),
                             flange.gained_mm() + flange.normal_K.dot(head_movement_K(at))});
        }
    }
    const Result<Vec3> moved_E = intake_movement_E(faces);
    if (!moved_E) {
        return moved_E.error();
    }
    return layout.banks[bank].frame.from_block(*moved_E);
}

Result<Vec3> Engine::casting_movement_K(Casting casting, std::size_t bank) const {
    switch (casting) {
        case Casting::head:
            return head_movement_K(bank);
        case Casting::intake:
            return intake_movement_K(bank);
        case Casting::block:
            break;
    }
    return Vec3(Vec3::Zero());
}

Result<Bore> Engine::bore_in_place(const Train& train, const Passage& passage) const {
    const Result<Vec3> moved = casting_movement_K(passage.casting, train.bank);
    if (!moved) {
        return moved.error();
    }
    Bore bore = passage.bore;
    bore.centre_K += *moved;
    return bore;
}

Result<Bore> Engine::tube_in_place(const Train& train) const {
    return bore_in_place(train, train.tube);
}

Result<Solid> Engine::solid_in_place(const Obstacle& obstacle) const {
    const Result<Vec3> moved = casting_movement_K(obstacle.casting, obstacle.bank);
    if (!moved) {
        return moved.error();
    }
    return std::visit(MovedBy{*moved}, obstacle.solid);
}

double Engine::outboard_y_sign(const Train& train) const {
    const Bank& bank = layout.banks[train.bank];
    if (bank.lean_deg != 0.0) {
        return bank.lean_deg > 0.0 ? 1.0 : -1.0;
    }
    return bank.frame.to_block(train.tube.bore.centre_K).y() >= 0.0 ? 1.0 : -1.0;
}

} // namespace rodway
