#pragma once

#include <QString>

#include "db/look_only.h"

namespace rodway::words {

/// That nothing can be changed in the shop that is open, why, and what to do about it.
[[nodiscard]] QString look_only(const LookOnly& look_only);

} // namespace rodway::words
