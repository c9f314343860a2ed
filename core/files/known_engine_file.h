#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/build/known_engine.h"

namespace rodway {

inline constexpr std::string_view known_engine_format = "rodway-known-engine";
inline constexpr int known_engine_file_version = 1;

/// A known engine as a file to be shared: who measured it, when, the note, and its set-up as a
/// set-up file has it. Its version and id are the shop's and don't travel.
[[nodiscard]] std::string write_known_engine_file(const KnownEngine& engine);

/// Reads such a file, or a set-up file, which says nothing of who measured it. Errors: those of
/// `read_set_up_file`, with the file's own line; missing_field "name", "set_up"; wrong_type;
/// newer_version.
Result<KnownEngine> read_known_engine_file(std::string_view bytes);

} // namespace rodway
