#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rodway {

/// The text without blanks and line ends before and behind it.
[[nodiscard]] std::string without_blanks(std::string_view text);

/// What stands between the separators, without blanks at its ends: one piece more than there are
/// separators, each possibly empty.
[[nodiscard]] std::vector<std::string> split_list(std::string_view text, char separator);

/// The words with `between` them.
[[nodiscard]] std::string joined(const std::vector<std::string>& words, std::string_view between);

} // namespace rodway
