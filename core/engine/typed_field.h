#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/build/set_up_record.h"

namespace rodway {

/// What somebody types for a set-up's field that is a length, an amount or a choice, ready to be
/// kept: ".080" and "2 mm", "85 C" and "185 °F", "30 Msi", "6 oz". Digits are kept as typed. An
/// amount without a unit is in the first of its kind: degrees Celsius, GPa, grams, rpm, millionths
/// for each kelvin. Whether the set-up takes it is for `make_engine` to say.
/// `path` must be such a field's. Errors, `field` the path: those of `parse_length`; not_an_amount,
/// `expected` the units; not_a_choice.
[[nodiscard]] Result<TypedValue> typed_field(std::string_view path, std::string_view text);

} // namespace rodway
