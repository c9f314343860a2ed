#include "core/loads/shaft_load.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/barring/valve_arcs.h"
#include "core/units/typed_text.h"

namespace rodway {

RockerForces rocker_forces(const Train& train, const Linkage& linkage, const Pose& pose,
                           double spring_N) {
    const Vec3 rod_way = (pose.upper_ball_K - pose.lower_ball_K).normalized();
    const Vec3 tip_speed = linkage.rates(pose).turned_rad_per_mm *
                           linkage.shaft_axis_K().cross(pose.roller_K - linkage.pivot_K());
    const double ratio = -train.valve.axis_K.dot(tip_speed);
    RockerForces forces;
    forces.spring_N = spring_N;
    forces.rod_N = spring_N * ratio / rod_way.dot(linkage.lifter_axis_K());
    forces.tip_on_rocker_K = spring_N * train.valve.axis_K;
    forces.rod_on_rocker_K = forces.rod_N * rod_way;
    forces.on_pivot_K = forces.tip_on_rocker_K + forces.rod_on_rocker_K;
    return forces;
}

std::vector<RockerShaft> rocker_shafts(const Engine& engine) {
    std::map<std::pair<std::size_t, std::string>, RockerShaft> found;
    for (const Train& train : engine.trains) {
        if (train.rocker.mount == RockerMount::shaft) {
            RockerShaft& shaft = found[{train.bank, train.rocker.shaft}];
            shaft.bank = train.bank;
            shaft.name = train.rocker.shaft;
            shaft.valves.push_back(train.position);
        }
    }
    const std::vector<ValvePosition> missing = engine.valves_without_train();
    std::vector<RockerShaft> shafts;
    for (auto& [key, shaft] : found) {
        std::sort(shaft.valves.begin(), shaft.valves.end());
        std::copy_if(missing.begin(), missing.end(), std::back_inserter(shaft.perhaps),
                     [&, bank = key.first](const ValvePosition& valve) {
                         return engine.layout.cylinder(valve.cylinder).bank == bank;
                     });
        shafts.push_back(std::move(shaft));
    }
    return shafts;
}

ShaftLoads::ShaftLoads(const Engine& engine) : engine_(&engine), shafts_(rocker_shafts(engine)) {
    for (const ValvePosition& valve : all_valves(engine)) {
        Rocker rocker;
        rocker.position = valve;
        rocker.train = engine.train(valve);
        if (rocker.train) {
            rocker.linkage =
                close_to_full_lift(*rocker.train, engine.lobes(valve).lobe.full_lift_mm()).linkage;
        }
        const ValveSpring* spring = engine.spring(valve);
        rocker.spring = spring && check_spring(*spring).ok() ? spring : nullptr;
        rockers_.push_back(rocker);
    }
}

RockerLoad ShaftLoads::load_of(const Rocker& rocker, CrankAngle crank) const {
    RockerLoad load;
    load.position = rocker.position;
    const double lobe_lift = engine_->lobe_lift_mm(rocker.position, crank);
    if (!rocker.linkage) {
        // Nothing is known of a valve without a train but its lobe; a train that doesn't close
        // might hold its valve open all the way round.
        load.state =
            !rocker.train && lobe_lift <= heel_mm ? RockerState::shut : RockerState::unknown;
        return load;
    }
    const auto pose = rocker.linkage->at(lobe_lift);
    if (!pose) {
        return load;
    }
    const double valve_lift = rocker.linkage->valve_lift_mm(*pose);
    load.state = lobe_lift > heel_mm && valve_lift > 0.0 ? RockerState::open : RockerState::shut;
    if (load.state == RockerState::open) {
        load.valve_lift_mm = valve_lift;
        if (rocker.spring) {
            const double spring_N =
                rocker.spring->load_N(rocker.spring->installed_height_mm - valve_lift);
            load.forces = rocker_forces(*rocker.train, *rocker.linkage, *pose, spring_N);
        }
    }
    return load;
}

const ShaftLoads::Rocker& ShaftLoads::rocker_of(const ValvePosition& valve) const {
    const auto found = std::find_if(rockers_.begin(), rockers_.end(),
                                    [&](const Rocker& rocker) { return rocker.position == valve; });
    RODWAY_ASSERT(found != rockers_.end());
    return *found;
}

Result<std::vector<RockerLoad>> ShaftLoads::rockers_at(CrankAngle crank) const {
    if (const auto checked = check_crank_angle(crank, "crank"); !checked) {
        return checked.error();
    }
    std::vector<RockerLoad> loads;
    for (const Rocker& rocker : rockers_) {
        loads.push_back(load_of(rocker, crank));
    }
    return loads;
}

Result<ShaftLoad> ShaftLoads::at(std::size_t shaft, CrankAngle crank) const {
    RODWAY_ASSERT(shaft < shafts_.size());
    if (const auto checked = check_crank_angle(crank, "crank"); !checked) {
        return checked.error();
    }
    ShaftLoad load;
    for (const auto* valves : {&shafts_[shaft].valves, &shafts_[shaft].perhaps}) {
        for (const ValvePosition& valve : *valves) {
            load.rockers.push_back(load_of(rocker_of(valve), crank));
        }
    }
    Vec3 sum = Vec3::Zero();
    bool known = true;
    for (const RockerLoad& rocker : load.rockers) {
        if (rocker.state == RockerState::open) {
            load.open.push_back(rocker.position);
        } else if (rocker.state == RockerState::unknown) {
            load.unknown.push_back(rocker.position);
        }
        if (rocker.forces) {
            sum += rocker.forces->on_pivot_K;
        } else if (rocker.state != RockerState::shut) {
            known = false;
        }
    }
    if (known) {
        load.on_shaft_K = sum;
    }
    return load;
}

Result<std::vector<ShaftLoadPoint>> ShaftLoads::through_cycle(std::size_t shaft,
                                                              double step_deg) const {
    RODWAY_ASSERT(shaft < shafts_.size());
    constexpr double least_deg = 0.05;
    constexpr double most_deg = 90.0;
    if (!(step_deg >= least_deg && step_deg <= most_deg)) {
        return Error{ErrorCode::out_of_range,
                     "step",
                     exact_text(step_deg),
                     {},
                     std::nullopt,
                     Limits{least_deg, most_deg, "crank_deg"}};
    }
    std::vector<ShaftLoadPoint> points;
    for (int step = 0; step * step_deg < 720.0; ++step) {
        const CrankAngle crank = CrankAngle::deg(step * step_deg);
        const auto load = at(shaft, crank);
        if (!load) {
            return load.error();
        }
        points.push_back({crank, load->open.size(), load->load_N()});
    }
    return points;
}

} // namespace rodway
