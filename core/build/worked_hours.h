#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rodway {

/// The most that one entry of hours may hold, minutes.
inline constexpr int most_minutes = 24 * 60;

/// Reads how long somebody worked, to whole minutes: "2", "2.5", "2,5" hours, "2:30", "2h30",
/// "2 h 30 min", "45 min", "1-1/2", "1/2". 1 to `most_minutes`.
/// Errors, field "hours": empty_text; wrong_type, `expected` "hours" or, out of that range,
/// "hours_of_a_day".
Result<int> parse_hours(std::string_view text);

/// "2:30".
[[nodiscard]] std::string hours_text(int minutes);

} // namespace rodway
