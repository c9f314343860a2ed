#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/engine/engine.h"

namespace rodway {

/// What valve spring and pushrod do to a rocker, and the rocker to what carries it, while the
/// engine is barred over: no friction, weight or inertia. Newton, bank frame K.
struct RockerForces {
    double spring_N = 0.0; ///< the valve's tip on the rocker, along the valve's axis
    double rod_N = 0.0;    ///< along the rod
    Vec3 tip_on_rocker_K = Vec3::Zero();
    Vec3 rod_on_rocker_K = Vec3::Zero();
    /// On the shaft or stud: the two forces above together. What holds it pushes back as much.
    Vec3 on_pivot_K = Vec3::Zero();
};

/// Forces of one rocker at a pose. The rod's force is by virtual work: a lifter raised by ds lifts
/// the valve by dh against the spring, F·dh = N·(û·a)·ds, so N = F·(dh/ds)/(û·a), with û the rod's
/// direction (lower to upper ball), a the lifter's axis, dh/ds of the gross lift.
[[nodiscard]] RockerForces rocker_forces(const Train& train, const Linkage& linkage,
                                         const Pose& pose, double spring_N);

enum class RockerState {
    shut,    ///< valve on its seat: its spring presses on the seat, not on the rocker
    open,    ///< valve off its seat: its spring loads the rocker
    unknown, ///< no train, or one that doesn't close: it may be open
};

/// One rocker at a crank angle.
struct RockerLoad {
    ValvePosition position;
    RockerState state = RockerState::unknown;
    double valve_lift_mm = 0.0; ///< net; 0 unless open
    /// Nothing where the valve is shut, unknown, or open with a spring that isn't known.
    std::optional<RockerForces> forces;
};

/// A rocker shaft and the valves whose rockers sit on it. Rockers on studs (trunnion or ball pivot)
/// have each their own and belong to no shaft.
struct RockerShaft {
    std::size_t bank = 0;
    std::string name; ///< as in `Rocker::shaft`; empty: the bank's one shaft
    std::vector<ValvePosition> valves;
    /// Valves of the bank that have no train: their rockers may sit here too.
    std::vector<ValvePosition> perhaps;
};

/// By bank, then name. A bank without a rocker on a shaft has none here.
[[nodiscard]] std::vector<RockerShaft> rocker_shafts(const Engine& engine);

/// What rests on one shaft at a crank angle.
struct ShaftLoad {
    std::vector<RockerLoad> rockers;    ///< in the order of `RockerShaft::valves`, then `perhaps`
    std::vector<ValvePosition> open;    ///< known to be open: that many springs load the shaft
    std::vector<ValvePosition> unknown; ///< may be open: no train, or one that doesn't close
    /// Newton, bank frame K. Nothing, never 0, if the spring of an open valve isn't known or if a
    /// valve may be open.
    std::optional<Vec3> on_shaft_K;
    [[nodiscard]] std::optional<double> load_N() const {
        return on_shaft_K ? std::optional(on_shaft_K->norm()) : std::nullopt;
    }
};

/// One point of a shaft's load by crank.
struct ShaftLoadPoint {
    CrankAngle at;
    std::size_t open = 0;         ///< valves known to be open
    std::optional<double> load_N; ///< see ShaftLoad
};

/// Loads on rockers and shafts at any crank angle; every train is closed once. The engine must
/// outlive this.
///
/// A valve on its seat with its lash open doesn't load the shaft; it begins to with the whole seat
/// load, the moment it leaves the seat. With a hydraulic lifter a shut valve's rocker still feels
/// the lifter's plunger spring: some tens of newton at most (from memory, no source), left out
/// beside a valve spring's hundreds.
class ShaftLoads {
  public:
    explicit ShaftLoads(const Engine& engine);
    explicit ShaftLoads(const Engine&&) = delete;

    [[nodiscard]] const std::vector<RockerShaft>& shafts() const { return shafts_; }

    /// Every valve there is, by cylinder, intake before exhaust, on a shaft or a stud.
    /// Error: not_an_angle.
    [[nodiscard]] Result<std::vector<RockerLoad>> rockers_at(CrankAngle crank) const;

    /// `shaft`: index into `shafts()`. Error: not_an_angle.
    [[nodiscard]] Result<ShaftLoad> at(std::size_t shaft, CrankAngle crank) const;

    /// The whole cycle from 0 in even steps. The load jumps where a valve leaves or meets its seat;
    /// the jump falls between two points. Error: out_of_range ("step", 0.05 to 90 crank degrees).
    [[nodiscard]] Result<std::vector<ShaftLoadPoint>> through_cycle(std::size_t shaft,
                                                                    double step_deg = 1.0) const;

  private:
    struct Rocker {
        ValvePosition position;
        const Train* train = nullptr; ///< none in the set-up
        std::optional<Linkage> linkage;
        const ValveSpring* spring = nullptr; ///< none, or none that can be worked with
    };
    [[nodiscard]] RockerLoad load_of(const Rocker& rocker, CrankAngle crank) const;
    [[nodiscard]] const Rocker& rocker_of(const ValvePosition& valve) const;

    const Engine* engine_;
    std::vector<Rocker> rockers_;
    std::vector<RockerShaft> shafts_;
};

} // namespace rodway
