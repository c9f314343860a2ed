#pragma once

#include <optional>

#include "core/valvetrain/linkage.h"

namespace rodway {

/// One train at one lobe lift, in the words of the trade.
struct TrainAtLift {
    double lobe_lift_mm = 0.0;
    double gross_lift_mm = 0.0; ///< of the valve, lash not yet taken off
    double net_lift_mm = 0.0;   ///< lash taken off, not below 0
    double gross_ratio = 0.0;   ///< d(gross lift)/d(lobe lift)
    /// The same while the valve is open; empty until the lash is gone.
    std::optional<double> net_ratio;
    double rod_to_adjuster_rad = 0.0; ///< rod against the screw's axis, or against the ball arm's
                                      ///< own direction on the heel where there is no screw
    double rod_to_lifter_rad = 0.0;   ///< rod against the lifter's axis
    /// Share of the rod's load that pushes the rocker along its shaft, from -1 to 1; above zero it
    /// pushes the way `rocker/axis` points.
    double side_share = 0.0;
    /// Contact of tip and valve, square to the valve in the plane in which the rocker swings; more
    /// is farther from the pivot. From the middle of the valve's tip if that is known, else from
    /// where the contact is on the heel.
    double sweep_mm = 0.0;
};

/// Empty where the train doesn't close.
[[nodiscard]] std::optional<TrainAtLift> train_at_lift(const Train& train, const Linkage& linkage,
                                                       double lobe_lift_mm);

/// The tip's track on the valve through a full lift.
struct Sweep {
    double from_mm = 0.0; ///< nearest the pivot; zero as in `TrainAtLift::sweep_mm`
    double to_mm = 0.0;   ///< farthest from it
    double on_heel_mm = 0.0;
    double at_full_lift_mm = 0.0;
    /// Net valve lift at which the contact turns back: the tip arm is then square to the valve.
    /// Empty if it doesn't turn back on the way.
    std::optional<double> turns_back_at_net_lift_mm;
    /// Net valve lift at which the contact first crosses the middle of the valve's tip; empty if it
    /// doesn't, or the tip's place is unknown.
    std::optional<double> centred_at_net_lift_mm;

    [[nodiscard]] double width_mm() const { return to_mm - from_mm; }
    [[nodiscard]] double middle_mm() const { return (from_mm + to_mm) / 2.0; }
};

/// A whole lift of one train.
struct TrainMotion {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> trouble_at_mm; ///< lobe lift at which it first doesn't close
    std::optional<double> adjuster_needed_mm;
    // The rest is there only if answered.
    std::optional<TrainAtLift> on_heel;
    std::optional<TrainAtLift> half_lift; ///< half the lobe's lift
    std::optional<TrainAtLift> full_lift;
    std::optional<Sweep> sweep;
    double adjuster_in_mm = 0.0;
    double preload_mm = 0.0;
    double lash_mm = 0.0;
    double rocker_swing_rad = 0.0;
    double steepest_rod_to_adjuster_rad = 0.0; ///< greater of heel, half and full lift
    std::optional<double> cup_room_rad;        ///< limit less the steepest; below zero it binds
};

[[nodiscard]] TrainMotion train_motion(const Train& train, double full_lift_mm);

/// Lobe lift at which the valve's net lift reaches a value, 0 for where the lash is just gone;
/// empty if it never does. Bisection to 1e-12 mm: net lift grows with lobe lift up to full lift.
[[nodiscard]] std::optional<double> lobe_lift_at_valve_lift(const Linkage& linkage,
                                                            double net_lift_mm,
                                                            double full_lobe_lift_mm);

} // namespace rodway
