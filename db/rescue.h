#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/check_report.h"

namespace rodway {

/// What became of one record that isn't simply there as its row stood.
enum class RescueCode {
    replayed,        ///< its row is gone or was overwritten: it is what the history leads to
    differs,         ///< its row was kept, though the history, damaged itself, leads elsewhere
    unlinked,        ///< `field` referred to a record that is lost, and now says nothing
    left_out,        ///< what it belongs to (`field`) is lost
    without_history, ///< a row that a whole history knows nothing of; it was left behind
    no_row,          ///< a damaged history tells of it, but its table, read whole, has no such row:
                     ///< it may have been removed; left out
    lost,            ///< neither row nor history tell enough of it; `field` is what lacks, if known
};

struct RescueNote {
    RescueCode code;
    RecordRef record;
    std::string field;

    bool operator==(const RescueNote&) const = default;
};

/// How many records of one kind came through.
struct RescueCount {
    int as_stored = 0;
    int replayed = 0;
    int lost = 0; ///< as far as their ids are known: lost, left_out and without_history
};

/// What a rescue came to. What no note names is as it was.
struct RescueReport {
    std::map<RecordKind, RescueCount> records;
    std::vector<RescueNote> notes;
    std::int64_t acts = 0;                ///< that came through
    std::vector<std::int64_t> lost_acts;  ///< numbers, as far as anything names them
    std::int64_t acts_missing_at_end = 0; ///< newer ones that nothing names
    int photos_copied = 0;
    std::vector<std::string> photos_altered; ///< files that stayed behind; paths
    CheckReport check;                       ///< of the new file
};

/// Makes a new shop file of all that can be read from a damaged one, which is only read and in
/// which no program may be writing. The new file has acts and edits with their numbers and seals,
/// records as they stood or as their history leads to, and copies of the photos that are still what
/// they were. It appears whole or not at all; photos that were copied by then stay.
///
/// Errors: cannot_read (`field` the damaged file), foreign_file, newer_version, damaged_file
/// (`value` "unreadable": nothing can be read from it); cannot_write (`field` the target; `value`
/// exists, no_folder, no_permission, disk_full or what SQLite says).
Result<RescueReport> rescue(const std::string& damaged, const std::string& target);

} // namespace rodway
