#pragma once

#include <string_view>
#include <vector>

namespace rodway {

/// Keys of the cautions that stand at stages and steps where work can hurt someone. Shop files and
/// stage plans have them: a key never changes.
[[nodiscard]] const std::vector<std::string_view>& cautions();

[[nodiscard]] bool is_caution(std::string_view key);

} // namespace rodway
