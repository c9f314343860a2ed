#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/build/records.h"

namespace rodway {

/// What a part is waited for.
enum class PartWait {
    not_listed,   ///< a role is asked for and no part of the build has it
    needed,       ///< nobody has ordered it
    ordered,      ///< no date was promised
    promised,     ///< for a day still to come, or today
    overdue,      ///< the promised day has passed
    not_measured, ///< it came, and nobody has measured it
    not_fitted,   ///< measured, and not in the engine yet
    temporary,    ///< it is fitted, and stands in for another that must replace it
    failed,       ///< it failed: another must take its place
};

/// For what this part is waited; nothing once it is fitted to stay, or given
/// back. A part without any date
/// is needed: a record begins with the need. `today`: ISO day of the shop's calendar.
[[nodiscard]] std::optional<PartWait> part_wait(const PartRecord& part, std::string_view today);

/// Whether the part isn't in the shop yet.
[[nodiscard]] bool is_to_come(PartWait wait);

} // namespace rodway
