#pragma once

#include <QString>

#include "core/cam/cam_timing.h"
#include "core/cam/degreeing.h"
#include "core/cam/typed_timing.h"
#include "core/piston/piston_to_valve.h"

namespace rodway::words {

/// An event as the trade says it, by its sign: "8° BTDC", "8° ATDC", "43° ABDC".
[[nodiscard]] QString cam_event(CamEvent event, double crank_deg);
/// "4° advanced", "2° retarded", "straight up".
[[nodiscard]] QString advance(double crank_deg);
/// "12°", or that there is none and how many degrees lie between.
[[nodiscard]] QString overlap(double crank_deg);
/// "110.5° of cam".
[[nodiscard]] QString cam_degrees(double cam_deg);
/// "12° after overlap TDC".
[[nodiscard]] QString about_overlap(CrankAngle after_overlap);

/// Why a valve has no events at its checking lift.
[[nodiscard]] QString timing_status(const ValveTiming& timing);
/// Why a valve has no least clearance to its piston, and what to do about it.
[[nodiscard]] QString piston_status(const PistonToValve& clearance);
/// One thing to be concluded from degreeing, in one or two sentences.
[[nodiscard]] QString finding(DegreeingFinding finding, const DegreeingFindings& findings);

/// What stands beside figures from a lobe made from a card.
[[nodiscard]] QString estimated_lobe();
/// How marks are taken.
[[nodiscard]] QString degreeing_caution();
/// What stands under every clearance of piston and valve.
[[nodiscard]] QString piston_caution();

// The words of `--json`: never translated.
[[nodiscard]] QString token(TimingStatus status);
[[nodiscard]] QString token(PistonToValveStatus status);
[[nodiscard]] QString token(DegreeingFinding finding);

} // namespace rodway::words
