#pragma once

#include <string>
#include <string_view>

#include "core/units/measure_unit.h"

namespace rodway {

/// The unit in which the same is said by those who use the other system: of inches, millimetres, of
/// newton metres, pounds-feet. Null where both use one (degrees, rpm, seconds), and for a unit that
/// the dimension doesn't have.
[[nodiscard]] const MeasureUnit* other_unit(Dimension dimension, std::string_view id);

/// How many decimals a number needs in the unit `shown_in` so that it tells all that was typed:
/// converted back and rounded to the step in which it was typed, it is the typed number again.
/// `typed_step` is that step in the unit in which the dimension is held (`TypedAmount::finest`), 0
/// if nothing had a last digit. Half a step of the last decimal shown stays below half a typed
/// step; where both steps are equal, what is shown is exact. A double holds 15 digits: of more, the
/// last are lost.
[[nodiscard]] int other_unit_digits(double typed_step, const MeasureUnit& shown_in);

/// A number of the unit in which its dimension is held, in the unit `shown_in`, with so many
/// decimals, at most 30: "0.254", "-3". Zero has no sign.
[[nodiscard]] std::string number_in_unit(double held, const MeasureUnit& shown_in, int decimals);

/// The coarsest step of which both steps are whole multiples: of 0.1 and 0.25 it is 0.05.
[[nodiscard]] double common_step(double one, double other);

} // namespace rodway
