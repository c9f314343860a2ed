#pragma once

#include <QString>
#include <cstdint>

#include "core/build/cure_state.h"

namespace rodway::words {

/// "40 min", "23 h 10 min", "6 d 4 h": as much as somebody who waits wants to know.
[[nodiscard]] QString time_span(std::int64_t minutes);

/// How long is still to wait, a line for each of the label's times: "May be handled in 40 min, at
/// 14:05".
[[nodiscard]] QString countdown(const CureState& state);

/// How something stands that cures, in a word or two: "Wet", "May be handled".
[[nodiscard]] QString cure_stage(const CureState& state);

} // namespace rodway::words
