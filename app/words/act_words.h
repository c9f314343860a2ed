#pragma once

#include <QString>

#include "core/build/edit.h"
#include "db/build_records.h"

namespace rodway::words {

/// What an act did, in one line: "new part “Rod bolts”", "ticked “Degree the cam”", "part “Rod
/// bolts”: received, nothing → “2026-11-02”". `now` names records that the act doesn't name itself.
[[nodiscard]] QString act_summary(const Act& act, const RecordTexts& now);

} // namespace rodway::words
