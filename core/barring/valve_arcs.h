#pragma once

#include <optional>
#include <vector>

#include "core/barring/open_valves.h"
#include "core/units/crank_arc.h"

namespace rodway {

/// One valve through the whole cycle: when its lobe lifts, and when the valve itself is open.
struct ValveArcs {
    ValvePosition position;
    std::size_t bank = 0; ///< of its cylinder
    CrankAngle full_lift; ///< of the lobe, in [0, 720)
    CrankArc off_heel;    ///< the lobe lifts by more than `heel_mm`
    /// Net lift above 0; of no span if lash takes up all the lift. Nothing if that can't be told:
    /// the valve has no train, or its train doesn't close somewhere on the way to full lift.
    std::optional<CrankArc> open;
    bool has_train = false;
    TrainStatus status = TrainStatus::answered; ///< of the train, if it has one
    bool lobe_estimated = false;                ///< made from card numbers: its ramps are a guess
};

/// Every valve there is: those with a train, and one intake and one exhaust of every cylinder even
/// without one. By cylinder, intake before exhaust.
[[nodiscard]] std::vector<ValvePosition> all_valves(const Engine& engine);

/// `all_valves` through the cycle, in the same order. The ends of arcs are roots, not samples:
/// first the lobe lift at which the valve leaves its seat, then the angles at which the lobe first
/// and last stands there. Error: not_an_angle, if a valve's full lift has no finite crank angle.
Result<std::vector<ValveArcs>> valve_arcs(const Engine& engine);

/// Linkage::close, and a look at the train on its way up to full lift: a train that meets a dead
/// point there has no linkage in the answer, only the status.
[[nodiscard]] Linkage::Closing close_to_full_lift(const Train& train, double full_lobe_lift_mm);

/// Arc over which a lobe lifts by more than this, mm; of no span if it never does.
[[nodiscard]] CrankArc lobe_above(const Engine& engine, const ValvePosition& valve,
                                  double lobe_lift_mm);

/// Arc over which the valve is off its seat by more than a net lift, mm; of no span if it never is.
/// Nothing if it has no train or the train doesn't close.
[[nodiscard]] std::optional<CrankArc> valve_above(const Engine& engine, const ValvePosition& valve,
                                                  double valve_lift_mm);

} // namespace rodway
