#pragma once

#include <QString>
#include <string>

#include "core/base/result.h"

namespace rodway {

/// The longest that a label may say, 60 days.
inline constexpr int most_label_minutes = 60 * 24 * 60;

/// Reads a time as makers print it: "90 min", "1 h", "24 hours", "1 h 30 min", "7 days". Whole
/// minutes, 1 to `most_label_minutes`. Errors: empty_text; not_an_amount, also for a bare number
/// and for what isn't one time; out_of_range, the limits in minutes.
[[nodiscard]] Result<int> parse_label_minutes(const std::string& text);

/// Back in the words of a label: "90 min", "24 h", "1 h 30 min", "7 days".
[[nodiscard]] QString label_minutes_text(int minutes);

} // namespace rodway
