#pragma once

#include <string>

#include "core/base/result.h"
#include "core/build/records.h"

namespace rodway {

/// A typed value as one text, the way an Edit carries it: the text, a space, the unit (".3125 in").
/// Without a unit it is the text alone, with a space behind it if the text has a space itself
/// ("1 5/8 "), so that the last space always parts text and unit. A unit never contains a space.
[[nodiscard]] std::string to_edit_text(const TypedValue& value);

/// The typed value that `to_edit_text` made `text` of.
/// Errors: empty_text (nothing before the unit), wrong_type (a form that `to_edit_text` never
/// makes).
[[nodiscard]] Result<TypedValue> typed_value_from(const std::string& text);

} // namespace rodway
