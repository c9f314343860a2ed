#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "core/base/result.h"

namespace rodway {

/// Room before the coils touch at full lift, as typed: common practice, no source.
inline constexpr const char* usual_to_bind = ".060";

void add_to_bind_option(CLI::App& command, std::string& to_bind);

/// Reads a length typed as an option, mm. Errors: as `parse_length`, about the option.
Result<double> option_mm(const std::string& text, const char* option);

} // namespace rodway
