#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/cam/lift_table.h"
#include "core/cam/quintic_spline.h"
#include "core/units/angle.h"

namespace rodway {

/// Lift and its derivatives by cam angle in radians: mm, mm/rad, mm/rad², mm/rad³.
struct LobeMotion {
    double lift = 0.0;
    double velocity = 0.0;
    double acceleration = 0.0;
    double jerk = 0.0;
};

/// The two cam angles, opening and closing flank, at which the lobe stands at some lift.
struct Flanks {
    CamAngle opening;
    CamAngle closing;
};

/// A duration stated on a cam card: crank degrees spent above a lobe lift.
struct CardDuration {
    double lobe_lift_mm = 0.0;
    double crank_deg = 0.0;
};

/// One lobe as a smooth curve (a quintic spline: lift, velocity, acceleration and jerk are
/// continuous). Angles count from full lift: 0 there, negative on the opening flank of a cam that
/// turns its ordinary way. Off the flanks the lift is exactly zero, on the heel.
class Lobe {
  public:
    /// Smooths a lift table. The strength of the smoothing is the greatest that leaves residuals no
    /// larger, root mean square, than `noise_mm`. By default that is what rounding to the table's
    /// own last digit makes (step/√12, JCGM 100 F.2.2.1), or the table's own scatter where it is
    /// more, but no more than 0.0003 in.
    static Result<Lobe> from_table(const LiftTable& table, std::optional<double> noise_mm = {});

    /// A symmetric lobe that has exactly the stated durations and peak and the least jerk
    /// otherwise. It is an estimate: good where only the peak matters, never for piston to valve.
    /// Errors: too_few_rows (needs two durations), order_wrong, not_a_lobe.
    static Result<Lobe> from_card(double peak_lift_mm, std::vector<CardDuration> durations);

    [[nodiscard]] LobeMotion at(CamAngle from_full_lift) const;
    [[nodiscard]] double lift_mm(CamAngle from_full_lift) const;
    [[nodiscard]] double full_lift_mm() const { return full_lift_mm_; }

    /// Where the lobe first and last stands at a lift in (0, full lift].
    [[nodiscard]] Flanks at_lift(double lobe_lift_mm) const;

    /// Angles between which the lobe is off its heel.
    [[nodiscard]] Flanks span() const;

    /// Made from card numbers rather than measured.
    [[nodiscard]] bool estimated() const { return estimated_; }
    /// Root mean square of table minus curve, mm; zero for a card lobe.
    [[nodiscard]] double residual_mm() const { return residual_mm_; }

  private:
    Lobe(QuinticSpline spline, double residual_mm, bool estimated);

    QuinticSpline spline_; ///< lift in mm by the table's own cam degrees; zero beyond its ends
    double full_lift_at_deg_ = 0.0; ///< the table's own angle of full lift
    double full_lift_mm_ = 0.0;
    double residual_mm_ = 0.0;
    bool estimated_ = false;
};

} // namespace rodway
