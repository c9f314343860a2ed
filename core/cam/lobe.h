#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/cam/lift_table.h"
#include "core/cam/motion_law.h"
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

/// What smoothing did to a lift table. A residual is the table's row, less the zero shift, minus
/// the curve. Heel rows further than 6 degrees from the ramp aren't smoothed, and not counted.
struct SmoothingReport {
    double noise_mm = 0.0;          ///< scatter of a row, one standard deviation, told or found
    double residual_rms_mm = 0.0;   ///< root mean square
    double worst_residual_mm = 0.0; ///< the largest, signed: a slipped or mistyped row shows here
    int worst_row = 0;              ///< its row in the table, from 1
    CamAngle worst_at;              ///< and its angle, from full lift
    int rows = 0;                   ///< smoothed
    double zero_shift_mm = 0.0;     ///< taken off every row: what the dial read on the heel
    double heel_wander_mm = 0.0;    ///< greatest less least reading on the heel
    bool opening_ramp_estimated = false; ///< the table begins on the ramp
    bool closing_ramp_estimated = false; ///< the table ends on the ramp
};

/// One lobe as a smooth curve (a quintic spline: lift, velocity, acceleration and jerk are
/// continuous). Angles count from full lift: 0 there, negative on the opening flank of a cam that
/// turns its ordinary way. Off the flanks the lift is exactly zero, on the heel.
class Lobe {
  public:
    /// Smooths a lift table: the curve of least jerk among those that keep within its scatter.
    /// If `noise_mm` is told, the smoothing is the strongest that leaves residuals no larger, root
    /// mean square. Otherwise curve and scatter are told apart by the table itself (restricted
    /// maximum likelihood, see table_smoothing.h), the residuals being at least what rounding to
    /// the table's own last digit makes (step/√12, JCGM 100 F.2.2.1), at most 0.0003 in.
    ///
    /// How good: laws of 7 to 11 mm over 60 to 70 cam degrees a flank, each row off by 0.0002 in
    /// (one standard deviation), every tenth row missing. The worst of 240 tables, enforced by
    /// tests/reference/lobe_reference_test.cpp, and what plain second differences of the same rows
    /// make of the acceleration. Cycloidal and polynomial laws with nothing but rounding to 0.0001
    /// in: peak velocity to 0.5 %, acceleration to 3 %.
    ///     rows every                 1°          2°          4°
    ///     lift                       0.00045 in  0.00065 in  0.00225 in
    ///     peak velocity              2 %         2.8 %       5.1 %
    ///     peaks of acceleration      13 %        20.5 %      24.5 %
    ///     by second differences      500 %       120 %       30 %
    /// Where a flat nose is highest is known less well than the rest, up to some degrees; of a nose
    /// as cams have it, to a fraction of a degree.
    ///
    /// A ramp that the table lacks (see `read_lift_table_ends`) is added: of the ramps that rise
    /// all the way, the one of least jerk. Errors: as `read_lift_table_ends`.
    static Result<Lobe> from_table(const LiftTable& table, std::optional<double> noise_mm = {});

    /// A symmetric lobe that has exactly the stated durations (to 0.05 crank degrees) and peak; how
    /// is said in card_lobe.cpp. It is an estimate: good where only the peak matters, never for
    /// piston to valve. Errors: too_few_rows (needs two durations), order_wrong, not_a_lobe.
    static Result<Lobe> from_card(double peak_lift_mm, std::vector<CardDuration> durations);

    /// A lobe of one law, `rise` and `fall` of 5 to 180 degrees, with a dwell at full lift between
    /// them, 0 standing in the middle of it. Errors: not_a_choice (a law whose acceleration jumps),
    /// out_of_range (lift not within 0.1 to 20 mm; angles; more than a turn together).
    static Result<Lobe> from_law(MotionLaw law, double lift_mm, CamAngle rise, CamAngle fall,
                                 CamAngle dwell = {});
    /// A symmetric lobe for a flat tappet. Errors: out_of_range.
    static Result<Lobe> from_law(const FlatTappetLaw& law, double lift_mm, CamAngle flank);

    /// The same curve with every lift times a factor above 0.
    [[nodiscard]] Lobe scaled(double factor) const;

    [[nodiscard]] LobeMotion at(CamAngle from_full_lift) const;
    [[nodiscard]] double lift_mm(CamAngle from_full_lift) const;
    [[nodiscard]] double full_lift_mm() const { return full_lift_mm_; }

    /// Where the lobe first and last stands at a lift in (0, full lift].
    [[nodiscard]] Flanks at_lift(double lobe_lift_mm) const;

    /// Angles between which the lobe is off its heel.
    [[nodiscard]] Flanks span() const;

    /// Made from card numbers rather than measured.
    [[nodiscard]] bool estimated() const { return estimated_; }

    /// A ramp is made up, since the table begins or ends on it: lash stops and valve timing at
    /// lifts below `measured_span()`'s ends are estimates then.
    [[nodiscard]] bool ramps_estimated() const;
    /// Angles between which the lobe was measured; `span()` where nothing is made up.
    [[nodiscard]] Flanks measured_span() const { return measured_span_; }

    /// Root mean square of table minus curve, mm; zero for a lobe that isn't from a table.
    [[nodiscard]] double residual_mm() const;
    /// Empty for a lobe that isn't from a table.
    [[nodiscard]] const std::optional<SmoothingReport>& smoothing() const { return smoothing_; }

    /// How much lift is missed by calipering a lobe: its height from heel to nose, less its width
    /// across the sides at right angles to the nose, is the lift only if the sides stand on the
    /// base circle. Where the lobe is longer than 180 cam degrees (more than 360 of crank off the
    /// heel) the sides have already lifted, and what is missed is their lift on both sides
    /// together, mm. Caliper jaws are flat, so this holds exactly for lift measured with a flat
    /// follower.
    [[nodiscard]] double caliper_lift_error_mm() const;

  private:
    explicit Lobe(QuinticSpline spline, std::optional<double> full_lift_at_deg = {});
    [[nodiscard]] double highest_deg() const;

    QuinticSpline spline_;      ///< lift in mm by the table's own cam degrees; zero beyond its ends
    std::vector<double> looks_; ///< the lift at every quarter step of the spline
    double full_lift_at_deg_ = 0.0; ///< the table's own angle of full lift
    double full_lift_mm_ = 0.0;
    bool estimated_ = false;
    Flanks measured_span_;
    std::optional<SmoothingReport> smoothing_;
};

} // namespace rodway
