#pragma once

#include "core/build/hold.h"

namespace rodway::words {

/// Whether nothing can be done about it but to wait: sealant that cures, a part on its way, a
/// customer who was asked. Of all else it is said that it is to be cleared.
[[nodiscard]] bool only_time_helps(const Hold& hold);

} // namespace rodway::words
