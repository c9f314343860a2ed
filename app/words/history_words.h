#pragma once

#include <QStringList>

#include "core/build/edit.h"
#include "db/build_records.h"

namespace rodway::words {

/// One act as a list shows it: who did it and when by this computer's clock, then what it did, a
/// line for each field. What made or removed a record says so once, above the record's fields.
/// `now` names records that the act doesn't name itself.
[[nodiscard]] QStringList act_lines(const Act& act, const RecordTexts& now);

} // namespace rodway::words
