#pragma once

#include <QStringList>

#include "core/build/edit.h"

namespace rodway::words {

/// One act as a list shows it: who did it and when, then what it did, a line for each field. What
/// made or removed a record says so once, above the record's fields.
[[nodiscard]] QStringList act_lines(const Act& act);

} // namespace rodway::words
