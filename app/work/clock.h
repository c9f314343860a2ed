#pragma once

#include <string>

namespace rodway {

/// The present, UTC, as records keep it: 2026-03-01T14:05:00Z.
[[nodiscard]] std::string now_utc();

} // namespace rodway
