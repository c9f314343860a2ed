#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "db/backup_schedule.h"
#include "db/shop_file.h"

namespace rodway {

/// What a restore came to.
struct Restored {
    HistoryMark history; ///< what the shop now ends with
    /// Copies of what stood there, in `backups_folder`: one whole shop file; or, if it could not be
    /// read, every one of its files byte for byte. Empty if nothing stood there.
    std::vector<std::string> kept;
    int photos_copied = 0;                   ///< from the backup's place
    std::vector<std::string> photos_missing; ///< digests of photos that are in neither place
};

/// Puts the content of a backup in the place of the shop file, which need not be there. Whatever
/// stands there is copied first. Up to the one step in which the file is replaced the shop stays as
/// it was, whatever fails or stops; photos copied by then stay. No ShopFile on it may be open in
/// this program. An older backup is brought to this version when the shop is opened.
///
/// Errors: of the backup (`field` its path) cannot_read, foreign_file, newer_version, damaged_file
/// (pages, indexes or references); of the shop locked_file if any program has it open, foreign_file
/// if what stands there is another program's, cannot_write (`value` same_file if both are one, or
/// as `WholeCopy::make` says). On a network disk a program that has the shop open but rests can't
/// be seen.
Result<Restored> restore(const std::string& backup_path, const std::string& shop_path,
                         const std::string& when_utc,
                         std::chrono::milliseconds patience = ShopFile::default_patience);

} // namespace rodway
