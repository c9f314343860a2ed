#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rodway {

/// A day as it is kept, "2026-03-01"; nothing if the calendar has no such day, or it is before
/// 1900.
[[nodiscard]] std::optional<std::string> kept_day(int year, int month, int day);

/// Reads "2026-03-01" and "2026-3-1". Never another order: 3/1 and 1/3 are one day to some and two
/// to others.
[[nodiscard]] std::optional<std::string> parse_day(std::string_view text);

} // namespace rodway
