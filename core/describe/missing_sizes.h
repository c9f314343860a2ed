#pragma once

#include <string>
#include <vector>

#include "core/describe/description.h"

namespace rodway {

/// What a described set-up still needs before there is an engine.
struct MissingSize {
    const EngineDimension* dimension = nullptr; ///< null: a field of its own, `path`
    std::string owner;
    std::string path; ///< where it is to be typed
};

/// In the order in which they are measured: dimensions without a value that stands, then of each
/// kind of lobe its lash, its centreline, and a lift table or a card. A size that can't be read
/// isn't missing.
[[nodiscard]] std::vector<MissingSize> missing_sizes(const Description& description,
                                                     const SetUpFields& fields);

} // namespace rodway
