#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rodway {

/// The text of a file, a UTF-8 byte order mark taken off. Refuses UTF-16 and anything else that
/// isn't UTF-8. Errors: empty_file, not_utf8 (`expected` says what it looks like: utf-16, binary).
Result<std::string> utf8_text(std::string_view bytes);

/// Line of a place in a text, counted from 1.
[[nodiscard]] int line_of(std::string_view text, std::size_t offset);

} // namespace rodway
