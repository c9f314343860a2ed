#pragma once

#include <QStringList>
#include <string>

#include "core/build/arrival.h"

namespace rodway {

/// What is known of a part, line by line: how it stands, what it is and where, what it replaces and
/// what replaces it, how it is fastened, what waits for it.
[[nodiscard]] QStringList part_details(const PartRecord& part, const PlanAndParts& plan,
                                       const std::string& today);

} // namespace rodway
