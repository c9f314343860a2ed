#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/build/edit.h"

namespace rodway {

enum class FindingCode {
    damaged_pages,     ///< SQLite's integrity check; `detail` is what it said
    broken_reference,  ///< a row that refers to a row which is not there; `detail` is the table
    photo_missing,     ///< no file holds the photo; `detail` is its digest
    photo_altered,     ///< the file's content is no longer the photo's; `detail` is the file's path
    history_altered,   ///< an act is not what was sealed when it was done; `record` the build, or
                       ///< nothing for the shop as a whole, `detail` the act's number
    history_shortened, ///< the newest acts are gone; `detail` is how many
    history_broken,    ///< an edit that doesn't begin where the edits before it ended; `detail` is
                       ///< the field
    record_differs,    ///< what is stored is not what the history leads to; `detail` is the field
    reading_position_unreadable, ///< a gap reading at no place; `detail` is its position
    reading_text_unreadable,     ///< a gap reading that says nothing; `detail` is its text, unit
    search_index_differs, ///< the index of words is not that of the records, and `rebuild_search`
                          ///< mends it; `detail` is its table
};

struct Finding {
    FindingCode code;
    std::optional<RecordRef> record;
    std::string detail;

    bool operator==(const Finding&) const = default;
};

/// What a check of the shop file found; nothing if all is well.
struct CheckReport {
    std::vector<Finding> findings;
};

} // namespace rodway
