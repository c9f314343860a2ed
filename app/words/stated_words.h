#pragma once

#include <QString>
#include <string>
#include <vector>

#include "core/castings/hot_stated.h"

namespace rodway::words {

/// What a field of a set-up under "running/…" or "hot/…" is called, and the springs' loads that go
/// with them: "wall of the rods (intake)". Another path as it is.
[[nodiscard]] QString stated_field(const std::string& path);
/// The same of several, one after the other, each with its path where that is wanted.
[[nodiscard]] QString stated_fields(const std::vector<std::string>& paths);

/// "head gasket".
[[nodiscard]] QString hot_part(HotPart part);
/// "grey iron".
[[nodiscard]] QString metal(Metal metal);
/// The metal's word in set-ups and in answers: never translated.
[[nodiscard]] QString token(Metal metal);

} // namespace rodway::words
