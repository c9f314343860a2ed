#pragma once

#include <QString>

#include "core/clearance/reading_fit.h"
#include "core/sheets/kept_gaps.h"

namespace rodway::words {

/// "on the heel", "at full lift", "at 120.5° of crank".
[[nodiscard]] QString turn_place(TurnPlace place, CrankAngle crank);
/// "rocker end, 3:30 o'clock, at full lift"; "lifter end, tightest place, on the heel".
[[nodiscard]] QString gap_place(const GapReading& reading);
[[nodiscard]] QString gauge_place(const GaugePlace& place);
/// "0.008 in to 0.010 in", "0.008 in or more", "under 0.010 in", "touching".
[[nodiscard]] QString gap_limits(const GapReading& reading);

/// A movement towards 12 and towards 3 o'clock as builders say it: "0.012 in inboard, 0.003 in to
/// the front".
[[nodiscard]] QString movement(const Vec2& moved_mm, const Engine& engine, const Train& train);

/// What a kept reading still says, and why it doesn't: "holds", "stale: trains/3I/rod/length has
/// changed".
[[nodiscard]] QString standing(const KeptGap& kept);

/// What came of a fit, in a sentence.
[[nodiscard]] QString fit_outcome(const ReadingFit& fit);

// The words of `--json`: never translated.
[[nodiscard]] QString token(TurnPlace place);
[[nodiscard]] QString token(GapStanding standing);
[[nodiscard]] QString token(FitOutcome outcome);

} // namespace rodway::words
