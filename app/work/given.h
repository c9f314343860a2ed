#pragma once

#include <optional>
#include <string>

namespace rodway {

/// What was typed; an empty box or an option left out is nothing.
[[nodiscard]] inline std::optional<std::string> given(const std::string& typed) {
    return typed.empty() ? std::optional<std::string>() : typed;
}

} // namespace rodway
