#pragma once

#include <optional>
#include <span>
#include <string>

#include "core/base/error.h"
#include "core/sheets/reading_value.h"
#include "core/units/interval.h"

namespace rodway {

/// Where the value of a reading lies: an interval as it was typed; a plain number half a step of
/// its last digit either side, one marked "about" a whole step (common practice, no source).
/// Empty for what isn't a number, and for a bound such as "<.002", which is no size.
[[nodiscard]] std::optional<Interval> interval_of(const ReadingValue& value);

/// By how much the greatest of some values exceeds the least, as far as readings of them tell.
/// Empty for fewer than two.
[[nodiscard]] std::optional<Interval> reading_spread(std::span<const Interval> values);

/// What is wrong with an interval whose ends should be in order and lie within `limits`; nothing if
/// it is good. Codes as `outside`.
[[nodiscard]] std::optional<Error> wrong_interval(const std::string& field,
                                                  const Interval& interval, const Limits& limits,
                                                  std::optional<int> line = {});

} // namespace rodway
