#pragma once

#include <map>
#include <optional>
#include <vector>

#include "core/cam/lobe.h"
#include "core/engine/engine_layout.h"
#include "core/loads/valve_spring.h"
#include "core/piston/valve_drops.h"
#include "core/valvetrain/linkage.h"
#include "core/valvetrain/train.h"

namespace rodway {

/// The lobes that work one kind of valve: their curve, their base circle, and where full lift
/// falls.
struct CamLobes {
    Lobe lobe;
    double base_circle_radius_mm = 0.0;
    double lash_mm = 0.0;
    /// Intake: after top dead centre of the valve overlap; exhaust: before it. Crank degrees.
    double centreline_crank_deg = 0.0;
};

/// Where the intake casting meets one bank's head. Bank frame K.
struct FlangeSetting {
    Vec3 normal_K = Vec3::UnitY(); ///< out of the head, unit
    double gasket_mm = 0.0;
    double gasket_when_located_mm = 0.0; ///< gasket on which the tubes' places were taken
};

/// One engine as a set-up describes it, in millimetres: a snapshot that computations read and never
/// change.
struct Engine {
    EngineLayout layout = {};
    CamLobes intake;
    CamLobes exhaust;
    /// Of valves whose lobe is not like the others.
    std::map<ValvePosition, CamLobes> own_lobes = {};
    std::vector<Train> trains = {}; ///< in the plan's order: by cylinder, intake before exhaust
    /// One entry per bank; empty where that bank's head carries no intake that holds tubes.
    std::vector<std::optional<FlangeSetting>> flanges = {};
    bool one_intake_for_all = true;              ///< one casting over all banks, or one for each
    std::optional<double> assumed_doubt_mm = {}; ///< ± of every minimum, until it is worked out
    double rod_clearance_limit_mm = 0.254;

    std::optional<double> connecting_rod_mm = {}; ///< between centres
    std::map<ValvePosition, ValveSpring> springs = {};
    std::map<ValvePosition, ValveDrops> valve_drops = {};
    std::vector<Obstacle> obstacles = {};

    /// The lobe that works a valve.
    [[nodiscard]] const CamLobes& lobes(const ValvePosition& valve) const;
    /// The same for valves of one kind, unless a valve has its own.
    [[nodiscard]] const CamLobes& lobes(ValveKind kind) const {
        return kind == ValveKind::intake ? intake : exhaust;
    }
    /// Nothing if none is in the set-up.
    [[nodiscard]] const ValveSpring* spring(const ValvePosition& valve) const;
    /// Crank angle, within the cycle, at which a valve's lobe stands at full lift.
    [[nodiscard]] CrankAngle full_lift_angle(const ValvePosition& valve) const;
    /// Lobe lift of one valve at a crank angle, mm.
    [[nodiscard]] double lobe_lift_mm(const ValvePosition& valve, CrankAngle crank) const;
    /// The train of a valve, or nothing.
    [[nodiscard]] const Train* train(const ValvePosition& valve) const;

    /// Intake and exhaust valves of every cylinder that have no train: nothing is known of them.
    [[nodiscard]] std::vector<ValvePosition> valves_without_train() const;

    /// Movement of the intake casting at one bank since its tubes were located, in that bank's
    /// frame. Error: banks_parallel.
    [[nodiscard]] Result<Vec3> intake_movement_K(std::size_t bank) const;
    /// One of a train's passages where it stands now, in that train's bank frame. Error:
    /// banks_parallel.
    [[nodiscard]] Result<Bore> bore_in_place(const Train& train, const Passage& passage) const;
    /// An obstacle where it stands now, in its own bank's frame. Error: banks_parallel.
    [[nodiscard]] Result<Solid> solid_in_place(const Obstacle& obstacle) const;
    /// The train's tube where it stands now.
    [[nodiscard]] Result<Bore> tube_in_place(const Train& train) const;

    /// +1 if +y of this train's bank frame is outboard, -1 if inboard: outboard is away from the
    /// engine's plane of symmetry, by the bank's lean, or, on an upright bank, by the tube's side.
    [[nodiscard]] double outboard_y_sign(const Train& train) const;
};

} // namespace rodway
