#pragma once

#include <QString>
#include <cstdint>
#include <string>
#include <vector>

#include "core/base/error.h"
#include "core/build/edit.h"

namespace rodway {

/// What somebody did and the shop file hasn't taken yet.
struct WaitingAct {
    std::int64_t key = 0; ///< names it as long as it waits
    std::vector<Edit> edits;
    QString what; ///< as for the undo entry
    std::string who;
    std::string when_utc; ///< when it was typed; it is written under this time
    bool creates = false; ///< its new records get their ids when it is written
    Error trouble;        ///< why it wasn't written at the last try
    bool refused = false; ///< it won't be tried again by itself: somebody must decide
};

} // namespace rodway
