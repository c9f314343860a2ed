#pragma once

#include <cstddef>

namespace rodway {

/// What is known about one position of the engine. Each has a shape of its own in the plan.
enum class CheckState {
    not_yet,   ///< nothing measured or computed
    passed,    ///< within its limit, doubt included
    too_close, ///< the doubt spans the limit: too close to call
    failed,
    stale,       ///< true once; something it rests on has changed
    waived,      ///< failed, and accepted by someone with a reason
    no_answer,   ///< can't be worked out: the train doesn't close
    serviceable, ///< not as new, but within what a used part may have
};
constexpr std::size_t check_state_count = 8;

} // namespace rodway
