#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/crank_slider.h"
#include "core/engine/engine.h"
#include "core/piston/valve_drops.h"
#include "core/units/angle.h"

namespace rodway {

/// Least clearances of valve and piston, mm: common practice, no source; a shop sets its own.
struct PistonToValveLimits {
    double intake_mm = 2.032; ///< 0.080 in
    double exhaust_mm = 2.54; ///< 0.100 in
    double radial_mm = 1.27;  ///< 0.050 in, beside the valve's head
    double aluminium_rods_add_mm =
        0.762; ///< 0.030 in, to intake and exhaust: they grow and stretch

    /// Along the valve's axis.
    [[nodiscard]] double along_valve_mm(ValveKind kind, bool aluminium_rods) const;
};

/// Checks a valve's drops: at least two, angles rising and within 90 crank degrees of the overlap's
/// top dead centre, drops 0 to 100 mm, radial gap 0 to 50 mm. Errors: too_few_rows, order_wrong,
/// not_a_number, out_of_range; the fields are "drops" (`line` is the drop's place, from 1) and
/// "radial_gap".
Result<Done> check_valve_drops(const ValveDrops& drops);

/// One valve over its piston, without the engine around it.
struct PistonAndValve {
    double stroke_mm = 0.0;
    double connecting_rod_mm = 0.0;
    double pin_offset_mm = 0.0;   ///< see `CrankSlider::make`
    double cos_valve_angle = 1.0; ///< of valve axis to cylinder axis, 0.5 (60 degrees) to 1
    ValveDrops drops;
};

/// How far the piston's crown stands from the closed valve, along the valve's axis, by crank angle.
///
/// Between the angles at which drops were taken the piston's own travel, x(θ)/cos β with β the
/// valve's angle to the cylinder, is taken off, the little that remains is interpolated in a
/// straight line, and the travel is put back. For a crown square to the cylinder nothing but the
/// readings' own scatter remains; for a pocket square to the valve the remainder is
/// -x·(1/cos β - cos β), hollow downwards, so that it shows too little clearance, by at most
/// x''·(1/cos β - cos β)·h²/8 between drops h radians apart: 0.004 mm at 5 degrees, β = 15°.
class PistonDrop {
  public:
    /// Errors: those of `check_valve_drops` and of `CrankSlider::make`; "cos_valve_angle".
    static Result<PistonDrop> make(const PistonAndValve& piston);

    /// From the valve's seat, mm; empty outside the angles at which drops were taken.
    [[nodiscard]] std::optional<double> at(CrankAngle after_overlap) const;
    [[nodiscard]] CrankAngle first() const { return nodes_.front().after_overlap; }
    [[nodiscard]] CrankAngle last() const { return nodes_.back().after_overlap; }
    /// The drops' own angles, rising.
    [[nodiscard]] std::vector<CrankAngle> angles() const;

  private:
    struct Node {
        CrankAngle after_overlap;
        double remainder_mm = 0.0; ///< drop less the piston's travel along the valve
    };
    PistonDrop(CrankSlider slider, double cos_valve_angle)
        : slider_(slider), cos_valve_angle_(cos_valve_angle) {}
    [[nodiscard]] double travel_mm(CrankAngle after_overlap) const;

    CrankSlider slider_;
    double cos_valve_angle_;
    std::vector<Node> nodes_;
};

enum class PistonToValveStatus {
    answered,
    not_bracketed,  ///< least at the first or last drop: the true least lies beyond it, or may
    no_drops,       ///< no drops of this valve are in the set-up
    rod_unknown,    ///< the connecting rod's length isn't in the set-up
    no_train,       ///< nothing is known of what opens this valve
    estimated_lobe, ///< a lobe made from card numbers: no ground for piston to valve
    lift_unknown,   ///< the train doesn't close at a lift on the way
};

/// Lash, where clearance to the piston is looked at.
enum class LashState {
    as_set, ///< valve lift is net of lash
    gone,   ///< no lash is left, the valve opens by it more: the worst case
};

/// The least clearance of one valve to its piston, along the valve's axis.
struct PistonToValve {
    PistonToValveStatus status = PistonToValveStatus::answered;
    /// The least; empty unless answered. Negative: they meet.
    std::optional<double> least_mm;
    /// The least within the angles at which drops were taken. Where the status is not_bracketed the
    /// true least may be less, never more; that is enough to fail by.
    std::optional<double> at_most_mm;
    std::optional<CrankAngle> after_overlap; ///< where `at_most_mm` stands
    std::optional<double> valve_lift_mm;     ///< there
    std::optional<double> drop_mm;           ///< there
    /// Clearance still falls towards the first, or the last, of the angles: one more drop is wanted
    /// before, or after. Either may be set beside an answer, too.
    bool drop_wanted_before = false;
    bool drop_wanted_after = false;
    std::optional<double> radial_gap_mm; ///< as measured
};

/// Valve lift along the valve's axis, mm, by crank angle from the overlap's top dead centre; empty
/// where it isn't known.
using ValveLift = std::function<std::optional<double>(CrankAngle after_overlap)>;

/// Clearance is drop less valve lift. Looked for in steps of no more than 0.1 crank degree from
/// drop to drop, then polished to 1e-7 degree about every step that is lower than its neighbours.
/// Between steps clearance could dip unseen by its second derivative times 0.1²/8: with valves that
/// gain 0.03 mm/degree², which is harsh, 0.00004 mm.
/// `valve_lift` may be asked at any angle from the first to the last drop.
/// Errors: those of `PistonDrop::make`.
Result<PistonToValve> piston_to_valve(const PistonAndValve& piston, const ValveLift& valve_lift);

/// The same for a valve of an engine, its camshaft moved: by `advance` crank degrees every event
/// comes earlier (retarded: below 0), within 60. Errors: those of `piston_to_valve`, and "advance";
/// the engine's own fields are named as there ("stroke", "connecting_rod", …).
Result<PistonToValve> piston_to_valve(const Engine& engine, const ValvePosition& valve,
                                      CrankAngle advance = {}, LashState lash = LashState::as_set);

/// A valve's clearance with the camshaft at one place.
struct AtCamPlace {
    CrankAngle advance; ///< from where the set-up has it
    PistonToValve clearance;
};
/// What moving the camshaft does to a valve, one entry for each of `advances`. Errors: as above.
Result<std::vector<AtCamPlace>> piston_to_valve_by_advance(const Engine& engine,
                                                           const ValvePosition& valve,
                                                           const std::vector<CrankAngle>& advances,
                                                           LashState lash = LashState::as_set);

/// When an intake valve's lobe comes down to a checking lift: crank, after bottom dead centre.
/// Empty for an exhaust valve, and unless the lift lies between heel and full lift.
[[nodiscard]] std::optional<CrankAngle> intake_closes_after_bottom(const Engine& engine,
                                                                   const ValvePosition& valve,
                                                                   double lobe_lift_mm,
                                                                   CrankAngle advance = {});

} // namespace rodway
