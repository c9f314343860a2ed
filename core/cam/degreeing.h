#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/cam/cam_timing.h"

namespace rodway {

/// Degreeing a cam in: from marks on a degree wheel to where the cam stands and what is off.
///
/// A wheel's mark is given in crank degrees after the wheel's own zero, counted in the direction in
/// which the engine turns: 19.5 after top dead centre is 19.5, 22 before it is -22 (or 338). So
/// either turning direction gives the same numbers. Marks wrap at 360, and a mark may be given
/// anywhere in [-360, 720].

/// True top dead centre as the wheel shows it.
struct TrueTopDeadCentre {
    /// The wheel's mark at true top dead centre, (-180, 180]: the wheel is off by so much.
    double mark_deg = 0.0;
    /// How far from true top dead centre the stop held the piston, either side.
    double stop_deg = 0.0;

    /// True crank angle after top dead centre of a mark, (-180, 180].
    [[nodiscard]] double true_deg(double wheel_mark_deg) const;
};

/// The stop must hold the piston at least and at most so far from top dead centre: nearer, the
/// crank hardly moves it; further, either dead centre could be meant.
constexpr double nearest_stop_deg = 2.5;
constexpr double furthest_stop_deg = 85.0;

/// Positive stop: the marks at which the piston meets the stop, turned one way and the other, in
/// either order. Top dead centre is halfway between them, on the shorter way round.
/// Error: out_of_range (`stop_mark`; `stop_distance`, where the marks lie too near or too far
/// apart).
Result<TrueTopDeadCentre> true_top_dead_centre(double one_mark_deg, double other_mark_deg);

enum class CentrelineMethod {
    off_the_heel,   ///< both marks stand the checking lift above the heel
    below_the_peak, ///< both marks stand the checking lift below full lift
};

/// Two marks of one valve at equal lift, opening flank first.
struct WheelReading {
    ValveKind kind = ValveKind::intake;
    CentrelineMethod method = CentrelineMethod::off_the_heel;
    double opening_mark_deg = 0.0;
    double closing_mark_deg = 0.0;
};

/// A centreline found on the engine. On an asymmetric lobe it is to be compared with a figure of
/// the same method only.
struct FoundCentreline {
    ValveKind kind = ValveKind::intake;
    CentrelineMethod method = CentrelineMethod::off_the_heel;
    /// Intake: after top dead centre; exhaust: before it.
    double centreline_crank_deg = 0.0;
    double between_marks_crank_deg = 0.0; ///< off the heel: the duration
    std::optional<ValveEvents> events;    ///< off the heel only
};

/// A found centreline outside these means that marks were swapped or belong to another valve.
constexpr double least_centreline_crank_deg = 40.0;
constexpr double greatest_centreline_crank_deg = 170.0;

/// Error: out_of_range (`opening_mark`, `closing_mark`, `centreline`).
Result<FoundCentreline> found_centreline(const WheelReading& reading, const TrueTopDeadCentre& tdc);

/// How a cam stands against what is specified, and what puts it right.
struct CamStanding {
    double advanced_crank_deg = 0.0; ///< negative: retarded
    /// What the cam must be turned by, in crank degrees: positive advances it.
    double turn_crank_deg = 0.0;
    /// The same at the camshaft and its sprocket, which turn half as far.
    double turn_cam_deg = 0.0;
};

/// Error: out_of_range (`specified` or `centreline`, outside the limits of a centreline).
Result<CamStanding> cam_standing(const FoundCentreline& found, double specified_crank_deg);

/// One valve's found centreline against what is specified.
struct DegreedValve {
    ValvePosition valve;
    double advanced_crank_deg = 0.0; ///< negative: retarded
};

/// Doubt of one centreline by degree wheel and dial (common practice, no source).
constexpr double usual_wheel_doubt_crank_deg = 1.0;

enum class DegreeingFinding {
    within_tolerance,    ///< nothing is off by more than the tolerance
    common_shift,        ///< all valves alike: keyway, chain, sprockets, or the cam on its drive
    lobe_separation_off, ///< intakes against exhausts: the cam was ground so
    single_valve_off,    ///< single valves apart from the rest: lifter bore or a lobe
    cannot_tell,         ///< off, but these valves don't tell what
};

/// One valve beside the rest.
struct ValveDeparture {
    ValvePosition valve;
    double advanced_crank_deg = 0.0;
    double own_crank_deg = 0.0; ///< less what it shares with the rest
    bool off = false;           ///< `own_crank_deg` is more than the tolerance
};

/// Facts from several valves. A number is always there; what may be concluded from it is in
/// `findings`, and where that is `cannot_tell`, nothing is.
struct DegreeingFindings {
    std::vector<DegreeingFinding> findings; ///< never empty; more than one may hold
    double common_advanced_crank_deg;       ///< negative: retarded
    /// Lobe separation found less that specified; empty without both kinds of valve.
    std::optional<double> lobe_separation_error_cam_deg;
    double spread_crank_deg = 0.0; ///< most advanced less most retarded
    double tolerance_crank_deg = 0.0;
    std::vector<ValveDeparture> valves; ///< in the order given
};

/// Splits what several valves share from what is a valve's own.
///
/// The shared shift is a median, so that a valve which is off doesn't pull it. Two accounts are
/// set against each other: one shift for all, or one for intakes and another for exhausts; the
/// second, having a number more, must explain two valves more. An account stands only if more than
/// half of the valves agree with it within the tolerance, in two cylinders at least: one cylinder
/// alone can't tell a shift of the cam from an error of its own. A valve apart from the rest is
/// called off only if another of its kind agrees with the account.
///
/// Errors: too_few_rows (none), duplicate_field (a valve twice), out_of_range (a value that is no
/// number or beyond ±180, a tolerance not in (0, 30]).
Result<DegreeingFindings> degreeing_findings(
    const std::vector<DegreedValve>& valves,
    double tolerance_crank_deg = usual_wheel_doubt_crank_deg);

} // namespace rodway
