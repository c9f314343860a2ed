#pragma once

#include <QStringList>
#include <vector>

#include "core/build/bolt_of_part.h"

namespace rodway::words {

/// What a part's length comes to at the holes that were measured: a line for each that is wrong or
/// too close to call, the gravest first, then one for all that are good. Empty for no hole.
[[nodiscard]] QStringList bolt_lines(const std::vector<BoltInPlace>& bolts);

/// Whether one of them bottoms, stands in a passage, or may.
[[nodiscard]] bool bolts_need_a_look(const std::vector<BoltInPlace>& bolts);

} // namespace rodway::words
