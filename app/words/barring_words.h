#pragma once

#include <QString>
#include <vector>

#include "core/barring/lash_walk.h"
#include "core/barring/shaft_windows.h"

namespace rodway::words {

/// "1I, 1E, 3I"; "none" if there are none.
[[nodiscard]] QString valves(const std::vector<ValvePosition>& valves);
/// "100° to 150°"; one angle if the arc is no wider than is shown; "anywhere" if it is the cycle.
[[nodiscard]] QString arc(const CrankArc& arc);
/// Why a valve's lash can't be set by the numbers, and what to do about it.
[[nodiscard]] QString lash_refusal(LashRefusal reason);
/// What is seen at a step of the EO/IC walk: "1E begins to open".
[[nodiscard]] QString lash_cue(const LashStep& step);
/// "Bank “left”, rocker shaft “front”".
[[nodiscard]] QString shaft(const RockerShaft& shaft, const EngineLayout& layout);
/// Load at a window's best angle, in lbf, or why it isn't known.
[[nodiscard]] QString shaft_load(const ShaftWindow& window);
/// "piston 3 nearest to top dead centre, 45° from it", and a warning if it is in the way.
[[nodiscard]] QString nearest_piston(const ShaftWindow& window);

// The words of `--json`: never translated.
[[nodiscard]] QString token(LashRefusal reason);
[[nodiscard]] QString token(LashCue cue);
[[nodiscard]] QString token(Turning turning);

} // namespace rodway::words
