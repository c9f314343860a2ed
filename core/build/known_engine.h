#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "core/build/set_up_record.h"

namespace rodway {

/// An engine's geometry that the shop keeps for next time. Each version is a record of its own;
/// those of one name belong together, and the highest counts.
struct KnownEngine {
    std::int64_t id = 0;
    std::string name;
    int version = 1;
    std::optional<std::string> measured_by;
    std::optional<std::string> measured_on; ///< ISO date
    std::optional<std::string> note;
    SetUpFields fields; ///< as a set-up's; how well each is known stands in it
};

} // namespace rodway
