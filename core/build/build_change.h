#pragma once

#include <cstdint>
#include <string>

#include "core/build/edit.h"

namespace rodway {

/// One edit of a build's history, with the act it belongs to. Acts count upwards as they were done,
/// whatever their clocks said.
struct BuildChange {
    std::int64_t act = 0;
    std::string who;
    std::string when_utc;
    Edit edit;
};

} // namespace rodway
