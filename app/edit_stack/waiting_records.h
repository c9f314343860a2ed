#pragma once

#include <cstdint>
#include <vector>

#include "app/edit_stack/waiting_act.h"
#include "core/build/records.h"

namespace rodway {

/// What waits to be saved, as records, so that it is shown where it was typed.

/// From here on are the ids of records that have none yet; no saved one has one so high.
inline constexpr std::int64_t id_to_come = std::int64_t{1} << 56U;

/// The build's readings that wait, in their order, each under an id of its own from `id_to_come`
/// on.
[[nodiscard]] std::vector<Reading> waiting_readings(const std::vector<WaitingAct>& waiting,
                                                    std::int64_t build_id);

/// The last act that ticks the step or takes its tick back; null if none waits.
[[nodiscard]] const WaitingAct* waiting_tick(const std::vector<WaitingAct>& waiting,
                                             std::int64_t step_id);

/// The step as that act makes it.
[[nodiscard]] Step ticked_by(const WaitingAct& act, Step step);

} // namespace rodway
