#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dyno/pull.h"
#include "core/sheets/kinds/pull_air.h"

namespace rodway {

/// One pull of the dyno sheet.
struct SheetPull {
    std::string position;       ///< "pull 3"
    std::optional<Pull> raw;    ///< the middle of what each row may be; nothing without good rows
    std::optional<PullAir> air; ///< nothing while its weather isn't whole
    std::vector<std::string> air_needs; ///< quantities that it lacks, or that can't be so
};

/// Every pull of which a torque or power was read, in the order first written.
[[nodiscard]] std::vector<SheetPull> sheet_pulls(const SheetFacts& facts);

} // namespace rodway
