#pragma once

#include <QString>
#include <string>

namespace rodway::words {

/// What a part is in its engine, by its word in `core/build/part_role.h`: "Head gasket". The word
/// itself if this program doesn't know it.
[[nodiscard]] QString part_role(const std::string& word);

} // namespace rodway::words
