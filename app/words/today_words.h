#pragma once

#include <QString>

#include "core/build/today.h"

namespace rodway::words {

/// What the record of a line of the day's list is called: a cure's place, a part with its supplier,
/// an item's title. Empty for a promised build.
[[nodiscard]] QString due_title(const Due& due, const TodayFacts& facts);

/// "in 3 days", "today", "2 days ago"; of a cure "3 March 2026, 14:05"; "not known".
[[nodiscard]] QString due_when(const Due& due);
/// How far off a day is: less than 0 for one that has gone by.
[[nodiscard]] QString days_off(std::int64_t days);

} // namespace rodway::words
