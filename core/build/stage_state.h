#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/build/hold.h"

namespace rodway {

/// How a stage stands.
struct StageState {
    std::int64_t stage_id = 0;
    int steps = 0;
    int steps_done = 0; ///< ticked, or left out
    int standing = 0;   ///< holds that aren't waived
    int waived = 0;
    std::optional<std::int64_t> sign_off_id; ///< the newest of the whole stage, not withdrawn
    /// Signed, and something has changed since or holds it again: the sign-off remains, and the
    /// stage is open.
    bool overtaken = false;
    /// The work has gone on past it: signed and not overtaken; a stage without gates also if all
    /// its steps are done and nothing holds it.
    bool passed = false;
};

/// By ordinal.
[[nodiscard]] std::vector<StageState> stage_states(const HoldFacts& facts);

/// The first stage that isn't passed; nothing once all are.
[[nodiscard]] std::optional<std::int64_t> stage_in_hand(const HoldFacts& facts);

enum class NextKind {
    step,     ///< do `step_id`
    wait,     ///< every open step of the stage waits: the first, `step_id`, for `hold`
    hold,     ///< all steps are done: clear `hold`
    sign_off, ///< nothing holds the stage any more: sign it off, or sign it anew
    nothing,  ///< every stage is passed, or there is none
};

struct NextThing {
    NextKind kind = NextKind::nothing;
    std::optional<std::int64_t> stage_id = {};
    std::optional<std::int64_t> step_id = {};
    std::optional<Hold> hold = {};
};

/// What to do next: in the stage in hand the first open step that waits neither for a part nor for
/// what is still wet at it or a step before it.
[[nodiscard]] NextThing next_thing(const HoldFacts& facts);

} // namespace rodway
