#pragma once

#include "core/units/bounded.h"
#include "core/units/interval.h"

namespace rodway {

/// What a reading leaves open, its middle as the best figure, and back.
[[nodiscard]] Bounded bounded(const Interval& range);
[[nodiscard]] Interval range_of(const Bounded& number);

/// Of what can't be negative: the rounding of a typed 0 doesn't reach below it. What was typed
/// below 0 stays there, for core to refuse.
[[nodiscard]] Interval rounded_from_zero(const Interval& range);

} // namespace rodway
