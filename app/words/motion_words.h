#pragma once

#include <QString>

#include "core/clearance/running_clearance.h"
#include "core/engine/engine.h"

namespace rodway::words {

/// What the figures of an engine in motion are, with how much and what they leave out; where
/// nothing can be worked out, what would have to be stated.
[[nodiscard]] QString motion(const std::vector<ValveInMotion>& valves, const RunningStated& stated);
/// Of one valve in a sentence or two: load, bow, where and when least is left.
[[nodiscard]] QString motion_of(const ValveInMotion& valve, const Engine& engine);
/// "112°", "on the heel".
[[nodiscard]] QString motion_at(const RunningPlace& place);
/// The verdict on the least, or why there is none, in a few words: "gives way".
[[nodiscard]] QString motion_verdict(const ValveInMotion& valve);
/// "34 %": a rod's greatest load of its critical one.
[[nodiscard]] QString load_share(const ValveInMotion& valve);

/// The word of `--json`: never translated.
[[nodiscard]] QString token(RunningStatus status);

} // namespace rodway::words
