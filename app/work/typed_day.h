#pragma once

#include <optional>
#include <string>

#include "core/base/result.h"

namespace rodway {

/// A day as typed, "2026-3-1", as records keep it; nothing stays nothing.
/// Error: not_a_date, with this field.
[[nodiscard]] Result<std::optional<std::string>> typed_day(const std::optional<std::string>& text,
                                                           const char* field);

} // namespace rodway
