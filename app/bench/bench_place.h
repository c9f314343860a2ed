#pragma once

#include <optional>
#include <string>

#include "core/build/hold.h"

namespace rodway {

/// Where in the window something of a build is dealt with.
struct BenchPlace {
    enum class Where { build, valvetrain, sheets, parts, account };
    Where where = Where::build;
    std::string sheet_kind = {};          ///< of the sheets
    std::optional<RecordRef> record = {}; ///< what it is about there, if that is one
};

/// Where what holds a build up is dealt with.
[[nodiscard]] BenchPlace place_of(const Hold& hold);

} // namespace rodway
