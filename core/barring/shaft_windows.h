#pragma once

#include <optional>
#include <vector>

#include "core/loads/shaft_load.h"
#include "core/units/crank_arc.h"

namespace rodway {

/// How windows are judged. All in crank degrees.
struct ShaftWindowRules {
    /// A piston this far from top dead centre counts as out of the way, 0 to 90. At 30° it has gone
    /// down about 7.5 mm (stroke 88 mm, rod 145 mm; crank and connecting rod as in Heywood, eq.
    /// 2.5). Choice of this project, no source.
    double clear_of_tdc_deg = 30.0;
    /// The best angle keeps this far from where a valve opens or closes, or, in a window too narrow
    /// for that, stands in its middle. 0 to 90.
    double keep_from_ends_deg = 5.0;
};

/// The piston of a bank that is nearest to a top dead centre, firing or overlap: a valve that drops
/// or is pushed open finds it either way.
struct NearestPiston {
    int cylinder = 1;
    double from_tdc_deg = 0.0; ///< before or after, 0 to 180
};
/// Nothing if the crank angle isn't a finite number or the bank has no cylinder.
[[nodiscard]] std::optional<NearestPiston> nearest_piston(const EngineLayout& layout,
                                                          std::size_t bank, CrankAngle crank);

/// A stretch of the cycle in which a shaft's bolts may be loosened or tightened: all through it the
/// same valves are open, and no other stretch has fewer.
struct ShaftWindow {
    CrankArc arc; ///< between the angles at which a valve leaves or meets its seat
    std::vector<ValvePosition> open;
    /// Counted as open: no train and its lobe off the heel, or a train that doesn't close.
    std::vector<ValvePosition> may_be_open;
    CrankAngle best;                      ///< see the ranking
    std::optional<double> load_at_best_N; ///< nothing if it isn't known, as in ShaftLoad
    std::optional<double> peak_load_N;    ///< anywhere in the window
    std::optional<NearestPiston> nearest; ///< at the best angle
    bool pistons_clear = false;           ///< the nearest is out of the way at the best angle
};

struct ShaftWindows {
    RockerShaft shaft;
    std::vector<ShaftWindow> windows; ///< best first, one at least
};

/// For every rocker shaft, where in the cycle it is best loosened.
///
/// Which stretches: those with the fewest valves open on that shaft, zero if there are any such.
/// Best angle in one: first, every piston of the bank out of the way, or as far from top dead
/// centre as it gets; then least load on the shaft; then pistons farthest from top dead centre.
/// Order of several: those with the pistons out of the way first; then least load at the best
/// angle, to 10 N, an unknown load last; then pistons farther; then the longer; then the earlier.
///
/// The load is that of a valvetrain at rest. Hydraulic lifters bleed down: a valve that is open in
/// a window closes slowly while one waits, and pumps up again when the engine is turned.
/// Errors: not_an_angle (`valve_arcs`), out_of_range ("clear_of_tdc", "keep_from_ends").
Result<std::vector<ShaftWindows>> shaft_windows(const Engine& engine,
                                                const ShaftWindowRules& rules = {});

} // namespace rodway
