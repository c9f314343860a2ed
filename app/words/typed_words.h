#pragma once

#include <QString>

#include "core/base/error.h"

namespace rodway::words {

/// Why what was typed in a form's box can't be kept, and what would be accepted; `box` is what the
/// form calls it.
[[nodiscard]] QString typed_error(const Error& error, const QString& box);

} // namespace rodway::words
