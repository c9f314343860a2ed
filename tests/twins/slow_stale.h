#pragma once

#include <vector>

#include "core/build/build_change.h"
#include "core/build/stale.h"

namespace rodway::twins {

/// Whether a check is stale, found by playing the whole history twice: to the end of the check's
/// act, and to its own end. Whatever the check depends on is then compared in the two engines.
[[nodiscard]] bool is_stale(const MadeCheck& check, const std::vector<BuildChange>& changes);

} // namespace rodway::twins
