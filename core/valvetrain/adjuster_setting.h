#pragma once

#include <optional>

#include "core/valvetrain/linkage.h"

namespace rodway {

/// A train on the heel with its lash or preload set, or why it can't be. Millimetres, frame K.
struct Setting {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> needed_mm; ///< what thread or plunger would need, where they end too soon
    Vec3 pivot_K = Vec3::Zero();
    Vec3 lower_ball_K = Vec3::Zero();
    Vec3 ball_arm_K = Vec3::Zero();
    Vec3 tip_arm_K = Vec3::Zero();
    double adjuster_in_mm = 0.0;
    double preload_mm = 0.0;
    double lash_mm = 0.0;
};

// One for each way of setting a train; `Linkage::close` picks.
[[nodiscard]] Setting set_screw(const Train& train);
[[nodiscard]] Setting set_nut(const Train& train);
[[nodiscard]] Setting set_plunger(const Train& train);
/// No adjuster and a solid lifter: the rod's length leaves the lash it leaves. A rod so long that
/// it holds the valve open is `rod_too_long`.
[[nodiscard]] Setting set_nothing(const Train& train);

/// Where a stud rocker's pivot and arms stand with its nut turned in by `in_mm` along the stud, the
/// tip keeping its gap to the valve: v·(O + x·t + Rot(φ)·q0) = v·(O + q0). Empty if the tip can't
/// follow so far, or its arm lies along the valve.
struct StudStanding {
    Vec3 pivot_K;
    double cos_turned;
    double sin_turned;
    Vec3 ball_arm_K;
    Vec3 tip_arm_K;
};
[[nodiscard]] std::optional<StudStanding> stud_standing(const Train& train, double in_mm);

/// What turning the adjuster in from a setting does on the heel.
struct AdjusterTurned {
    TrainStatus status = TrainStatus::answered;
    /// Solid lifter: gap at the valve; below zero the valve is held open by that much.
    std::optional<double> lash_mm;
    /// Hydraulic: the plunger's depth below its stop; below zero there is a gap instead, beyond its
    /// travel the valve is held open.
    std::optional<double> preload_mm;
};
/// `in_mm` counts from where the train's lash or preload is set. No adjuster: outside_domain.
[[nodiscard]] AdjusterTurned turn_adjuster(const Train& train, double in_mm);

/// Rod lengths between ball centres that a train could run with.
struct RodLengths {
    double as_found_mm = 0.0; ///< adjuster as found, lash or preload as wanted
    double shortest_mm = 0.0; ///< adjuster turned in as far as its thread goes
    double longest_mm = 0.0;  ///< turned out as far
};
/// Empty if the train can't be worked out, or its stud rocker can't follow its nut.
[[nodiscard]] std::optional<RodLengths> rod_lengths(const Train& train);

} // namespace rodway
