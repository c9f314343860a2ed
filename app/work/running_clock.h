#pragma once

#include <functional>
#include <string>

namespace rodway {

/// Where a window takes the present from: UTC as `now_utc`.
using Clock = std::function<std::string()>;

/// Shows this UTC time now, and runs on from there. A text that is no UTC time is a bug.
[[nodiscard]] Clock clock_from(const std::string& utc);

} // namespace rodway
