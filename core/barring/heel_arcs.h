#pragma once

#include <optional>
#include <vector>

#include "core/barring/valve_arcs.h"

namespace rodway {

/// Why a valve's lash can't be set by the numbers.
enum class LashRefusal {
    lobe_estimated, ///< made from card numbers: nobody knows where its ramps end
    heel_too_short, ///< margins at both ends leave nothing of the heel
    not_on_heel,    ///< at the other valve's cue the lobe isn't on its heel with the margin
    cue_not_seen,   ///< the other valve never lifts as far as can be seen
};

struct LashLeftOut {
    ValvePosition valve;
    LashRefusal reason;
};

/// Crank degrees kept clear of where a lobe's table leaves or reaches the heel, for ramps that the
/// table is too coarse to show. Choice of this project, no source; people may set their own.
constexpr double usual_heel_margin_deg = 10.0;

/// Where one valve's lash may be set.
struct HeelArc {
    ValvePosition valve;
    CrankArc may_set; ///< lobe on its heel, the margin kept at both ends
};

struct HeelArcs {
    std::vector<HeelArc> arcs;         ///< in the order of `all_valves`
    std::vector<LashLeftOut> left_out; ///< lobe_estimated, heel_too_short
    double margin_deg = 0.0;
};

/// Where every valve's lash may be set. Only lobes matter, so valves without a train are here too.
/// Errors: not_an_angle (`valve_arcs`), out_of_range ("heel_margin", 0 to 180 crank degrees).
Result<HeelArcs> heel_arcs(const Engine& engine, double margin_deg = usual_heel_margin_deg);

/// One valve's lash at a crank angle.
struct LashStanding {
    ValvePosition valve;
    bool now = false;                    ///< may be set here
    std::optional<double> turn_deg;      ///< how far to turn until it may: 0 if now
    std::optional<double> stays_deg;     ///< if now: how far one may turn on until it no longer may
    std::optional<LashRefusal> left_out; ///< never, then; turn_deg is absent
};

/// Which valves may be set at a crank angle, and how far off the others are, in the order of
/// `all_valves`. Errors: as `heel_arcs`, and not_an_angle ("crank").
Result<std::vector<LashStanding>> lash_standing(const Engine& engine, CrankAngle crank,
                                                double margin_deg = usual_heel_margin_deg);

} // namespace rodway
