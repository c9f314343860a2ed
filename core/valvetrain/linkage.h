#pragma once

#include <optional>

#include "core/valvetrain/train.h"

namespace rodway {

/// Why a train has no answer, or that it has one.
enum class TrainStatus {
    answered,
    rod_too_short,          ///< lifter and adjuster can't be joined by so short a rod
    rod_too_long,           ///< the rod is longer than lifter and adjuster are apart
    arm_too_short,          ///< an arm of less than 1 mm across the shaft
    near_dead_point,        ///< rod and ball arm within about a degree of one line (sin α < 0.02)
    adjuster_out_of_thread, ///< setting the lash needs more thread than there is
    does_not_go_through,    ///< the rod's axis doesn't pass through both ends of the tube
};

/// A train at one lobe lift. Millimetres, bank frame K.
struct Pose {
    Vec3 lower_ball_K;
    Vec3 upper_ball_K;
    Vec3 roller_K;           ///< centre of the rocker's tip
    double cos_turned = 1.0; ///< of the rocker's angle from where it stands on the heel
    double sin_turned = 0.0; ///< about the shaft's axis, right-handed
};

/// Velocities at a pose, per millimetre of lobe lift.
struct PoseRates {
    Vec3 upper_ball_K;        ///< dB/ds, no unit
    double turned_rad_per_mm; ///< dφ/ds
};

/// Bounds that hold over a whole interval of lobe lift; derived in linkage.cpp.
struct RateBounds {
    double upper_ball_speed = 0.0;          ///< |dB/ds|
    double upper_ball_curving_per_mm = 0.0; ///< |d²B/ds²|
    double swing_speed = 0.0;               ///< |dB/ds - dP/ds|
};

/// One train closed: lifter, rod, rocker on its shaft, adjuster set so that the lash is right.
/// The pose depends on the crank only through the lobe lift, and is closed form.
///
/// Closing |P(s) - B(φ)| = L: with d = P - O split along and across the shaft's axis n,
/// cos α = (|d|² + |r|² - L² - 2·d_n·r_n) / (2·|d_p|·|r_p|), and the branch kept from assembly.
/// It is the four-bar's position equation (Norton, Design of Machinery, ch. 4) with the offsets of
/// the two balls along the shaft added.
class Linkage {
  public:
    struct Closing;
    /// Sets the adjuster by the rod's length at zero lift: |P(0) - (O + r0 + x·j)| = L, the smaller
    /// turn of the screw of the two that fit.
    static Closing close(const Train& train);

    /// Empty where the train doesn't close or is at a dead point (see `status_at`).
    [[nodiscard]] std::optional<Pose> at(double lobe_lift_mm) const;
    [[nodiscard]] TrainStatus status_at(double lobe_lift_mm) const;
    [[nodiscard]] PoseRates rates(const Pose& pose) const;

    /// Bounds over [from, to] mm of lobe lift; empty if a dead point can't be ruled out there.
    /// `swing_at_ends` is |dB/ds - dP/ds| at `from` and `to`, whichever is larger.
    [[nodiscard]] std::optional<RateBounds> bounds(double from_mm, double to_mm,
                                                   double swing_at_ends) const;

    /// Gross lift of the valve, lash not yet taken off: -v·(C - C0). May be called for any pose.
    [[nodiscard]] double gross_lift_mm(const Pose& pose) const;
    /// max(0, gross - lash).
    [[nodiscard]] double valve_lift_mm(const Pose& pose) const;

    /// How far the adjuster was turned in from where it was found, to set the lash.
    [[nodiscard]] double adjuster_in_mm() const { return adjuster_in_mm_; }
    [[nodiscard]] double rod_length_mm() const { return L_; }
    [[nodiscard]] const Vec3& lifter_axis_K() const { return a_; }
    [[nodiscard]] const Vec3& shaft_axis_K() const { return n_; }
    [[nodiscard]] const Vec3& pivot_K() const { return O_; }

  private:
    Linkage() = default;
    struct Corner;
    [[nodiscard]] Corner corner(double lobe_lift_mm) const;

    Vec3 O_, n_;  ///< shaft
    Vec3 a_, P0_; ///< lifter's axis, lower ball on the heel
    Vec3 r0_, q0_, v_;
    double L_ = 0.0;
    double r_along_ = 0.0;  ///< ball arm along the shaft
    double r_across_ = 0.0; ///< ball arm across it
    double branch_ = 1.0;
    double lash_mm_ = 0.0;
    double adjuster_in_mm_ = 0.0;
};

struct Linkage::Closing {
    TrainStatus status = TrainStatus::answered;
    std::optional<Linkage> linkage; ///< there only if answered
    /// What the adjuster would need, where that is the trouble, mm turned in.
    std::optional<double> adjuster_needed_mm;
};

} // namespace rodway
