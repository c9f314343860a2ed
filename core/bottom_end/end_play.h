#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/bottom_end/size_band.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// A shaft, or a pair of rods, pried one way and the other against a dial.
struct EndPlayTrial {
    Interval forward_mm;  ///< dial, pried forward
    Interval backward_mm; ///< dial, pried back
};

/// How far it goes from end to end.
struct EndPlay {
    Interval play_mm; ///< mean of the trials; whichever way the dial counts, 0 or more
    std::optional<double> trials_apart_mm; ///< greatest less least; empty for one trial
    /// The trials differ by more than the dial's steps explain: something isn't seated.
    bool does_not_repeat = false;
    SizeStanding standing = SizeStanding::within;
};

/// .004 to .010 in for a crankshaft, and for a camshaft; .010 to .020 for a pair of rods. Common
/// practice, no source.
[[nodiscard]] SizeBand common_crank_end_play();
[[nodiscard]] SizeBand common_cam_end_play();
[[nodiscard]] SizeBand common_rod_side_clearance();

/// Errors, `line` counted from 1: too_few_rows ("trial": none); not_a_number, out_of_range
/// ("forward", "backward", ±50 mm).
Result<EndPlay> end_play(const std::vector<EndPlayTrial>& trials, const SizeBand& band);

} // namespace rodway
