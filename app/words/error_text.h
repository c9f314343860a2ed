#pragma once

#include <QString>

#include "core/base/error.h"

namespace rodway::words {

/// What is wrong, where, and what would be accepted: one or two sentences.
[[nodiscard]] QString error_text(const Error& error);

/// The same with the file it was found in before it.
[[nodiscard]] QString error_in_file(const QString& file, const Error& error);

} // namespace rodway::words
