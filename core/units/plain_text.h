#pragma once

#include <string>
#include <string_view>

namespace rodway {

/// What people typed, in the letters that readers of text look for: small, without blanks at its
/// ends, and with ASCII in place of typographic signs (a dash, +-, a degree sign, a raised 3, 1/2).
[[nodiscard]] std::string plain_text(std::string_view text);

} // namespace rodway
