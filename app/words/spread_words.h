#pragma once

#include <QString>

#include "core/clearance/build_spread.h"

namespace rodway::words {

/// What sampled builds come to as a whole, that they are an estimate, and of what.
[[nodiscard]] QString spread(const BuildSpread& spread, std::uint64_t seed, double limit_mm);
/// "0.002 to 0.006 in"; "no answer to 0.006 in".
[[nodiscard]] QString spread_range(const ValveSpread& valve);
/// "34 %"; "under 1 %" and "over 99 %" where it is neither none nor all.
[[nodiscard]] QString share(double share);

} // namespace rodway::words
