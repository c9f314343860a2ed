#pragma once

#include <optional>
#include <string>

#include "core/base/error.h"

namespace rodway {

/// What is wrong with a number that should lie within `limits`, ends included: not_a_number if it
/// isn't finite, out_of_range if it is outside; nothing if it is good. `value` is in the limits'
/// unit; `line` is the row of a table, counted from 1.
[[nodiscard]] std::optional<Error> outside(const std::string& field, double value,
                                           const Limits& limits, std::optional<int> line = {});

} // namespace rodway
