#pragma once

#include <map>
#include <optional>
#include <vector>

#include "core/build/records.h"
#include "core/clearance/survey.h"
#include "core/sheets/rod_clearance_reading.h"

namespace rodway {

/// The last clearance found by hand at a valve, or nothing.
[[nodiscard]] const Reading* last_by_hand(const std::vector<Reading>& readings,
                                          const ValvePosition& valve);

/// What was found by hand in one set-up: the last of each valve that can be read.
using ByHand = std::map<ValvePosition, RodClearanceReading>;
[[nodiscard]] ByHand found_by_hand(const std::vector<Reading>& readings, std::int64_t set_up_id);

/// The verdict that rules at a valve: the worse of what is computed and what was found by hand.
[[nodiscard]] std::optional<Verdict> ruling(const ValveClearance& line, const ByHand& by_hand,
                                            const RodClearanceLimits& limits);

/// Whether hand and computation can't both be right, doubts taken into account.
[[nodiscard]] bool disagree(const ValveClearance& line, const ByHand& by_hand);

} // namespace rodway
