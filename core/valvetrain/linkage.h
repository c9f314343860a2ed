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
    plunger_out_of_travel,  ///< a hydraulic plunger can't take up what the rod leaves
    outside_domain,      ///< a size or place no engine has; `check_train` (train_check.h) names it
    does_not_go_through, ///< the rod's axis doesn't pass through both ends of the tube
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

/// How the rocker turns while the rod's lower end moves: per any unit of time, and per its square.
struct RockerTurning {
    double velocity_rad = 0.0;
    double acceleration_rad = 0.0;
};

/// Bounds that hold over a whole interval of lobe lift; derived in linkage.cpp.
struct RateBounds {
    double upper_ball_speed = 0.0;          ///< |dB/ds|
    double upper_ball_curving_per_mm = 0.0; ///< |d²B/ds²|
    double swing_speed = 0.0;               ///< |dB/ds - dP/ds|
};

/// One train closed: lifter, rod, rocker on its pivot, adjuster set so that the lash (or a
/// hydraulic lifter's preload) is right. The pose depends on the crank only through the lobe lift,
/// and is closed form.
///
/// Closing |P(s) - B(φ)| = L: with d = P - O split along and across the shaft's axis n,
/// cos α = (|d|² + |r|² - L² - 2·d_n·r_n) / (2·|d_p|·|r_p|), and the branch kept from assembly.
/// It is the four-bar's position equation (Norton, Design of Machinery, ch. 4) with the offsets of
/// the two balls along the shaft added.
///
/// Accuracy, for a train within the domain of `check_train` (train_check.h) whose sin α stays above
/// 0.1 (rounding of coordinates within 2 m dominates, and grows as 1/sin α below that):
///
/// | what | within |
/// | --- | --- |
/// | lower and upper ball, roller | `accuracy::place_mm` |
/// | adjuster or plunger, once set | `accuracy::setting_mm` |
/// | rocker's angle | `accuracy::turned_rad` |
/// | its rate, per mm of lobe lift | `accuracy::turned_rate_rad_per_mm` |
/// | gross and net lift | `accuracy::lift_mm` |
class Linkage {
  public:
    struct Closing;
    /// Sets what there is to set:
    /// - a screw in the rocker, |P(0) - (O + r0 + x·j)| = L, the smaller turn of the two that fit;
    /// - a nut on a stud, which moves the pivot while the tip keeps its gap to the valve: the root
    ///   nearest to where the nut was found, bracketed;
    /// - nothing, with a hydraulic lifter: how deep its plunger stands;
    /// - nothing, with a solid lifter: the lash is what the rod leaves.
    static Closing close(const Train& train);

    /// Empty where the train doesn't close or is at a dead point (see `status_at`).
    [[nodiscard]] std::optional<Pose> at(double lobe_lift_mm) const;
    [[nodiscard]] TrainStatus status_at(double lobe_lift_mm) const;
    [[nodiscard]] PoseRates rates(const Pose& pose) const;
    /// For any motion of the lower ball, whatever drives it.
    [[nodiscard]] RockerTurning turning(const Pose& pose, const Vec3& lower_velocity_K,
                                        const Vec3& lower_acceleration_K) const;
    /// The least lobe lift in [0, full lift] at which the train doesn't close or is at a dead
    /// point, to 1e-6 mm; empty if there is none.
    struct Trouble;
    [[nodiscard]] std::optional<Trouble> first_trouble(double full_lift_mm) const;

    /// Bounds over [from, to] mm of lobe lift; empty if a dead point can't be ruled out there.
    /// `swing_at_ends` is |dB/ds - dP/ds| at `from` and `to`, whichever is larger.
    [[nodiscard]] std::optional<RateBounds> bounds(double from_mm, double to_mm,
                                                   double swing_at_ends) const;

    /// Gross lift of the valve, lash not yet taken off: -v·(C - C0). May be called for any pose.
    [[nodiscard]] double gross_lift_mm(const Pose& pose) const;
    /// max(0, gross - lash).
    [[nodiscard]] double valve_lift_mm(const Pose& pose) const;

    /// How far the adjuster was turned in from where it was found, to set the lash; for a nut, how
    /// far it went along the stud.
    [[nodiscard]] double adjuster_in_mm() const { return adjuster_in_mm_; }
    /// How deep a hydraulic lifter's plunger stands below its stop; 0 for a solid lifter.
    [[nodiscard]] double preload_mm() const { return preload_mm_; }
    /// Gap at the valve on the heel.
    [[nodiscard]] double lash_mm() const { return lash_mm_; }
    [[nodiscard]] double rod_length_mm() const { return L_; }
    [[nodiscard]] const Vec3& lifter_axis_K() const { return a_; }
    [[nodiscard]] const Vec3& shaft_axis_K() const { return n_; }
    [[nodiscard]] const Vec3& pivot_K() const { return O_; }
    [[nodiscard]] const Vec3& ball_arm_K() const { return r0_; } ///< on the heel
    [[nodiscard]] const Vec3& tip_arm_K() const { return q0_; }  ///< on the heel
    [[nodiscard]] const Vec3& valve_axis_K() const { return v_; }

  private:
    Linkage() = default;
    struct Corner;
    [[nodiscard]] Corner corner(double lobe_lift_mm) const;
    /// Least |d_p| and greatest |cos α| over an interval of lobe lift.
    struct CornerRange;
    [[nodiscard]] CornerRange corner_range(double from_mm, double to_mm) const;
    void keep_branch();

    Vec3 O_, n_;  ///< shaft
    Vec3 a_, P0_; ///< lifter's axis, lower ball on the heel
    Vec3 r0_, q0_, v_;
    double L_ = 0.0;
    double r_along_ = 0.0;  ///< ball arm along the shaft
    double r_across_ = 0.0; ///< ball arm across it
    double branch_ = 1.0;
    double lash_mm_ = 0.0;
    double adjuster_in_mm_ = 0.0;
    double preload_mm_ = 0.0;
};

struct Linkage::Closing {
    TrainStatus status = TrainStatus::answered;
    std::optional<Linkage> linkage; ///< there only if answered
    /// What the adjuster would need, where that is the trouble, mm turned in; or, for a plunger,
    /// how deep it would have to stand.
    std::optional<double> adjuster_needed_mm;
};

struct Linkage::Trouble {
    TrainStatus status = TrainStatus::near_dead_point;
    double lobe_lift_mm = 0.0;
};

namespace accuracy {
constexpr double place_mm = 2e-9;
constexpr double setting_mm = 5e-9;
constexpr double turned_rad = 1e-10;
constexpr double turned_rate_rad_per_mm = 1e-10;
constexpr double lift_mm = 1e-8;
} // namespace accuracy

} // namespace rodway
