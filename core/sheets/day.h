#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rodway {

/// A day as it is kept, "2026-03-01"; nothing if the calendar has no such day, or it is before
/// 1900.
[[nodiscard]] std::optional<std::string> kept_day(int year, int month, int day);

/// Reads "2026-03-01", "2026-3-1", and with an English month, whole or its first three letters or
/// more, "1 March 2026", "Mar 1, 2026", "2026 march 1". Never numbers alone in another order: 3/1
/// and 1/3 are one day to some and two to others.
[[nodiscard]] std::optional<std::string> parse_day(std::string_view text);

} // namespace rodway
