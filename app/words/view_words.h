#pragma once

#include <QString>
#include <string>

#include "render/scene.h"

namespace rodway::words {

/// What a part drawn in the 3D view is called; `name`: of a passage or an obstacle, as the set-up
/// has it.
[[nodiscard]] QString part_kind(PartKind kind, const std::string& name);

} // namespace rodway::words
