#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/engine/engine.h"

namespace rodway {

/// Cam timing in the trade's notation. All angles are crank degrees of the valve's own cylinder,
/// counted in the direction in which the engine turns. So nothing wraps at 720°, no cylinder
/// differs from another by where it fires, and an engine that turns the other way has the same
/// numbers: nothing is mirrored.
///
/// The formulae are the trade's own (common practice; `tests/reference/timing_reference_test.cpp`
/// names the pages they are checked against).

enum class LiftOf {
    lobe,  ///< lift of the follower on its lobe
    valve, ///< net lift of the valve: the lash is taken off
};

/// The lift at which timing is read, such as 0.050 in or 1 mm.
struct CheckingLift {
    double lift_mm = 0.0;
    LiftOf of = LiftOf::lobe;
};

/// A lift table is no better than this (half a step of one to 0.0001 in): a lower lobe lift is on
/// the heel, and has no angle.
constexpr double least_checking_lobe_lift_mm = 0.00127;

/// The two events of one valve, signed as the trade says them.
struct ValveEvents {
    /// Intake: before top dead centre of the overlap. Exhaust: before bottom dead centre. Negative:
    /// after it.
    double opens_crank_deg = 0.0;
    /// Intake: after bottom dead centre. Exhaust: after top dead centre of the overlap. Negative:
    /// before it.
    double closes_crank_deg = 0.0;

    [[nodiscard]] double duration_crank_deg() const {
        return opens_crank_deg + 180.0 + closes_crank_deg;
    }
};

/// Midpoint of a valve's two events: after top dead centre of the overlap for an intake valve,
/// before it for an exhaust valve.
[[nodiscard]] double centreline_crank_deg(ValveKind kind, const ValveEvents& events);

/// Where events fall in the engine's cycle, [0, 720).
[[nodiscard]] CrankAngle opens_at(const EngineLayout& layout, const ValvePosition& valve,
                                  const ValveEvents& events);
[[nodiscard]] CrankAngle closes_at(const EngineLayout& layout, const ValvePosition& valve,
                                   const ValveEvents& events);

/// Why a valve has no events at a checking lift, or that it has.
enum class TimingStatus {
    answered,
    lift_not_reached,     ///< lobe or valve never stands so high
    on_the_heel,          ///< the lift is there on the heel already: no angle belongs to it
    no_train,             ///< valve lift asked of a valve whose train is not known
    train_does_not_close, ///< `ValveTiming::train` says why
};

/// Timing of one valve. A centreline counts as `centreline_crank_deg` does.
struct ValveTiming {
    ValveKind kind = ValveKind::intake;
    CheckingLift checking;
    TimingStatus status = TimingStatus::answered;
    TrainStatus train = TrainStatus::answered;
    bool estimated = false; ///< the lobe was made from card numbers

    std::optional<ValveEvents> events;
    std::optional<double> lobe_lift_mm; ///< at the events
    /// Three centrelines, which on an asymmetric lobe differ by degrees. Halfway between the two
    /// points that stand the checking lift above the heel (for a valve: above its seat):
    std::optional<double> centreline_off_the_heel_crank_deg;
    /// halfway between the two points that stand the checking lift below full lift; empty if no
    /// point off the heel does:
    std::optional<double> centreline_below_the_peak_crank_deg;
    /// and where full lift itself falls.
    double centreline_at_full_lift_crank_deg = 0.0;
};

/// Timing of one valve at a checking lift. The valve's lift is a monotone function of the lobe's
/// (the train is closed once; its pose depends on the crank only through lobe lift), so the lobe
/// lift that belongs to a valve lift is a bracketed root, and both crank angles come back through
/// the lobe's flanks. `linkage` may be null: then only lobe lifts have an answer.
/// A valve's checking lift may be 0: where the lash is just taken up.
/// Error: out_of_range (a checking lift that is no number, negative, or 0 of the lobe).
Result<ValveTiming> valve_timing(const CamLobes& lobes, ValveKind kind, const Linkage* linkage,
                                 const CheckingLift& checking);

/// The same for a valve of an engine, its train closed here. Errors: out_of_range,
/// valve_unknown (no such cylinder).
Result<ValveTiming> valve_timing(const Engine& engine, const ValvePosition& valve,
                                 const CheckingLift& checking);

/// What two centrelines say of the cam.
struct CamFigures {
    double intake_centreline_crank_deg = 0.0;  ///< after top dead centre of the overlap
    double exhaust_centreline_crank_deg = 0.0; ///< before it
    /// Half their sum: the angle between the two lobes on the camshaft, hence in cam degrees.
    double lobe_separation_cam_deg = 0.0;
    /// Lobe separation less intake centreline; positive is advanced, negative retarded.
    double advance_crank_deg = 0.0;
};
[[nodiscard]] CamFigures cam_figures(double intake_centreline_crank_deg,
                                     double exhaust_centreline_crank_deg);

/// Timing of one cylinder's pair of valves.
struct CylinderTiming {
    ValveTiming intake;
    ValveTiming exhaust;
    CamFigures at_full_lift;
    /// Empty where either valve has no such centreline.
    std::optional<CamFigures> off_the_heel;
    std::optional<CamFigures> below_the_peak;
    /// Crank degrees in which both valves stand above the checking lift; negative: so many degrees
    /// lie between the exhaust's closing and the intake's opening.
    std::optional<double> overlap_crank_deg;
};

/// Errors: as `valve_timing`.
Result<CylinderTiming> cylinder_timing(const Engine& engine, int cylinder,
                                       const CheckingLift& checking);

/// Events as a cam card gives them; what it does not give stays empty.
struct CardEvents {
    std::optional<double> intake_opens_crank_deg;   ///< before top dead centre
    std::optional<double> intake_closes_crank_deg;  ///< after bottom dead centre
    std::optional<double> exhaust_opens_crank_deg;  ///< before bottom dead centre
    std::optional<double> exhaust_closes_crank_deg; ///< after top dead centre
};

/// The same card with the cam moved: advanced, every event comes so much earlier.
[[nodiscard]] CardEvents advanced(const CardEvents& events, double by_crank_deg);

/// What follows from a card's events; empty where an event it needs is not given. The centrelines
/// are midpoints, so on an asymmetric lobe they are those of the card's checking lift.
struct CardFigures {
    std::optional<double> intake_duration_crank_deg;
    std::optional<double> exhaust_duration_crank_deg;
    std::optional<double> intake_centreline_crank_deg;
    std::optional<double> exhaust_centreline_crank_deg;
    std::optional<double> lobe_separation_cam_deg;
    std::optional<double> overlap_crank_deg; ///< negative: none
    std::optional<double> advance_crank_deg;
};

/// No event of a four-stroke engine lies further than this from its dead centre.
constexpr double furthest_event_crank_deg = 180.0;

/// Errors: out_of_range; the field is the event ("intake_opens") or, where two events leave no time
/// between them, the duration ("intake_duration").
Result<CardFigures> timing_from_events(const CardEvents& events);

} // namespace rodway
