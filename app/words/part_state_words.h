#pragma once

#include <QString>
#include <optional>
#include <string>

#include "core/build/part_wait.h"
#include "core/build/records.h"

namespace rodway::words {

/// How a part stands in a word or two: "Late", "Ordered", "Fitted".
[[nodiscard]] QString part_state(const PartRecord& part, const std::string& today);
/// The same with its day and how far off that is: "promised 4 December 2026, in 4 days".
[[nodiscard]] QString part_day(const PartRecord& part, const std::string& today);
/// Both in one: "Promised 4 December 2026, in 4 days", "Late: promised 27 November 2026, 3 days
/// ago".
[[nodiscard]] QString part_standing(const PartRecord& part, const std::string& today);
/// What it is, with how many and of what size: "Head bolt, 10 pieces, 7/16-14 x 4.25 in".
[[nodiscard]] QString part_title(const PartRecord& part);

} // namespace rodway::words
