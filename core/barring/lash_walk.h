#pragma once

#include <vector>

#include "core/barring/heel_arcs.h"

namespace rodway {

/// What is watched for while turning.
enum class LashCue {
    exhaust_begins_to_open, ///< EO: then the intake is set
    intake_all_but_closed,  ///< IC: then the exhaust is set
};

/// One step of the EO/IC walk.
struct LashStep {
    CrankAngle at;         ///< in [0, 720)
    double turn_deg = 0.0; ///< from the step before, or, at the first, from the start
    int cylinder = 1;
    LashCue cue = LashCue::exhaust_begins_to_open;
    ValvePosition seen;             ///< the valve watched
    std::vector<ValvePosition> set; ///< the valve to set, or both of a cylinder with two of a kind
    /// Crank degrees to the nearer end of the heel of what is set, the margin not taken off.
    double heel_left_deg = 0.0;
    /// The watched valve has no train that closes: the angle is where its *lobe* has lifted as much
    /// as is seen; what lash and ratio make of it at the valve isn't known.
    bool seen_by_lobe = false;
};

struct LashWalk {
    std::vector<LashStep> steps;
    std::vector<LashLeftOut> left_out;
};

struct LashWalkRules {
    double margin_deg = usual_heel_margin_deg; ///< 0 to 180 crank degrees
    /// How far a valve is off its seat when it 'begins to open' or has 'all but closed', net, mm.
    /// 0 to 2. Default 0.010 in: what an eye at a retainer sees; choice of this project, no source.
    double seen_lift_mm = 0.254;
};

/// The EO/IC walk (common practice): through one cycle from a crank angle, the way the engine runs,
/// each intake set when the exhaust of its cylinder begins to open, each exhaust when the intake of
/// its cylinder has all but closed. Of two exhausts the one that begins first is watched, of two
/// intakes the one that closes last. With hydraulic lifters the same stops serve to set preload.
///
/// A step is given only where the lobe of what is set is on its heel with the margin, and where
/// neither its lobe nor the watched one's is an estimate; other valves are left out, with the
/// reason. Errors: not_an_angle ("crank"), out_of_range ("heel_margin", "seen_lift").
Result<LashWalk> lash_walk(const Engine& engine, CrankAngle from, const LashWalkRules& rules = {});

} // namespace rodway
