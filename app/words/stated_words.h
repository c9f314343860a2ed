#pragma once

#include <QString>
#include <string>
#include <vector>

#include "core/castings/hot_stated.h"

namespace rodway::words {

/// What fields of a set-up under "running/…", "hot/…" and "springs/…" are called, those that differ
/// by their owner together: "wall of the rods (intake, exhaust); engine speed". Another path as it
/// is.
[[nodiscard]] QString stated_fields(const std::vector<std::string>& paths);

/// "head gasket".
[[nodiscard]] QString hot_part(HotPart part);
/// "grey iron".
[[nodiscard]] QString metal(Metal metal);
/// The metal's word in set-ups and in answers: never translated.
[[nodiscard]] QString token(Metal metal);

} // namespace rodway::words
