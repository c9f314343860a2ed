#pragma once

#include <string_view>

#include "core/base/result.h"

namespace rodway {

/// The longest time of a label that is read, minutes: 60 days.
inline constexpr int most_label_minutes = 60 * 24 * 60;

/// Reads a time as the label of a sealant, adhesive or paint states it, to whole minutes: "90 min",
/// "1 h", "1.5 hours", "1 h 30 min", "7 days". 1 to `most_label_minutes`. The unit must stand
/// there: 24 alone could be hours or minutes.
/// Errors, field "minutes": empty_text; wrong_type, `expected` "label_time", "label_time_unit" for
/// a number without a unit or, out of that range, "label_time_range".
Result<int> parse_label_time(std::string_view text);

} // namespace rodway
