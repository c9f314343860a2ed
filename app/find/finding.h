#pragma once

#include <QString>
#include <optional>
#include <string>
#include <vector>

#include "core/base/error.h"
#include "db/search.h"

namespace rodway {

/// One thing found, in words.
struct FoundLine {
    RecordRef record{RecordKind::build, 0};
    std::int64_t build_id = 0; ///< 0: it is the shop's, no build's
    QString kind;              ///< "reading", "part"
    QString called;            ///< "Main clearance, J2: .0025"
    QString build;             ///< the build's name
    QString field;             ///< where the words stand
    TextPassage passage;
};

struct FindAnswer {
    std::vector<FoundLine> lines;
    bool newest_only = false; ///< as `SearchAnswer` says
    std::optional<Error> failure;
};

/// How many are shown of readings, and of all else.
inline constexpr int most_found = 60;

/// Looks the words up in a shop file, over a connection of its own: safe on any thread.
[[nodiscard]] FindAnswer find_in_shop(const std::string& shop_path, const std::string& typed);

} // namespace rodway
