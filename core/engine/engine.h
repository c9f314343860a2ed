#pragma once

#include <map>
#include <optional>
#include <vector>

#include "core/cam/lobe.h"
#include "core/castings/flange_setting.h"
#include "core/castings/head_setting.h"
#include "core/clearance/engine_doubt.h"
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

/// The head settings of an engine, by bank. Only `Engine::set_head` changes them: what a head
/// carries has to move with it.
class HeadSettings {
  public:
    /// All zero where nothing was set.
    [[nodiscard]] HeadSetting of(std::size_t bank) const {
        return bank < banks_.size() ? banks_[bank] : HeadSetting{};
    }

  private:
    friend struct Engine;
    std::vector<HeadSetting> banks_;
};

/// One engine as a set-up describes it, in millimetres: a snapshot that computations read and never
/// change.
struct Engine {
    EngineLayout layout = {};
    CamLobes intake;
    CamLobes exhaust;
    /// Of valves whose lobe is not like the others.
    std::map<ValvePosition, CamLobes> own_lobes = {};
    /// In the plan's order: by cylinder, intake before exhaust. Pivots and valves stand where they
    /// are now, ready for `Linkage::close`; passages where they were located (`bore_in_place`).
    std::vector<Train> trains = {};
    HeadSettings heads = {};
    /// One entry per bank; empty where that bank's head carries no intake that holds tubes.
    std::vector<std::optional<FlangeSetting>> flanges = {};
    bool one_intake_for_all = true;              ///< one casting over all banks, or one for each
    EngineDoubt doubt = {};                      ///< what is stated of how well it is known
    std::optional<double> assumed_doubt_mm = {}; ///< ± of every minimum, where nothing is stated
    /// It was stated for described sizes that have changed since: it holds no more and is left out.
    bool assumed_doubt_outdated = false;
    double rod_clearance_limit_mm = 0.254;

    std::optional<double> connecting_rod_mm = {}; ///< between centres
    std::map<ValvePosition, ValveSpring> springs = {};
    std::map<ValvePosition, ValveDrops> valve_drops = {};
    std::vector<Obstacle> obstacles = {}; ///< where they were located (`solid_in_place`)

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

    /// Changes what lies between a bank's block and head; its rockers and valves move along.
    void set_head(std::size_t bank, const HeadSetting& setting);
    /// Movement of a bank's head since its places were taken: along the cylinders. That bank's
    /// frame, mm, as below.
    [[nodiscard]] Vec3 head_movement_K(std::size_t bank) const;
    /// Movement of the intake casting at one bank since its tubes were located. Error:
    /// banks_parallel.
    [[nodiscard]] Result<Vec3> intake_movement_K(std::size_t bank) const;
    /// Movement of any casting at one bank; the block stays. Error: banks_parallel.
    [[nodiscard]] Result<Vec3> casting_movement_K(Casting casting, std::size_t bank) const;

    /// One of a train's passages where it stands now. Error: banks_parallel.
    [[nodiscard]] Result<Bore> bore_in_place(const Train& train, const Passage& passage) const;
    /// The train's port tube where it stands now. Error: banks_parallel.
    [[nodiscard]] Result<Bore> tube_in_place(const Train& train) const;
    /// An obstacle where it stands now. Error: banks_parallel.
    [[nodiscard]] Result<Solid> solid_in_place(const Obstacle& obstacle) const;

    /// +1 if +y of this train's bank frame is outboard, -1 if inboard: outboard is away from the
    /// engine's plane of symmetry, by the bank's lean, or, on an upright bank, by the tube's side.
    [[nodiscard]] double outboard_y_sign(const Train& train) const;
};

} // namespace rodway
