#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "db/backup_names.h"
#include "db/backup_schedule.h"
#include "db/shop_file.h"

namespace rodway {

/// A backup as it lies in its folder.
struct Backup {
    std::string path;
    BackupName name;
    std::int64_t bytes = 0;
    /// Its last act; nothing if it doesn't open as a shop file that this program knows.
    std::optional<HistoryMark> history;
    /// Digest of its first act: backups of one shop have one. Empty if it has no act.
    std::string origin;
};

/// What making a backup came to.
struct BackupMade {
    Backup backup;
    int photos_copied = 0;                   ///< to a place that isn't the shop's own folder
    std::vector<std::string> photos_missing; ///< digests of the shop's photos that aren't there
};

/// Copies the shop whole, as of one act, to `backups_folder(shop.path(), place)`, under a name that
/// carries `when_utc`; others may write meanwhile. It is there under that name only when it is
/// whole, checked and on the disk, and never replaces anything. To a place that isn't the shop
/// file's own folder its photos are copied first, those that aren't there yet. Before that,
/// whatever the shop's work left half written in either place and in the photos is removed: see
/// `db/temporary_files`.
/// Errors: cannot_write (`field` the folder, `value` as `WholeCopy::make` says), damaged_file,
/// locked_file. Photos copied before an error stay, for they are whole.
Result<BackupMade> back_up(ShopFile& shop, const std::string& place, const std::string& when_utc);

/// Every backup in the folder, of whatever shop, oldest first; other files aren't looked at. No
/// folder holds none, if the folder above it is there. Errors: cannot_read.
Result<std::vector<Backup>> backups_in(const std::string& folder);

/// Removes the shop's old backups at the place, see `backups_to_keep`, and returns their paths. It
/// keeps whatever isn't a dated backup of this very shop that opens and is at rest: other files,
/// other shops' backups, damaged ones, those that a restore or a migration made.
/// Errors: cannot_read, cannot_write (`field` the path); what was removed before stays removed.
Result<std::vector<std::string>> thin_backups(ShopFile& shop, const std::string& place,
                                              const std::string& now_utc);

/// The marks of this shop's backups among those, for `needs_back_up`.
[[nodiscard]] std::vector<BackupMark> marks_of(const std::vector<Backup>& backups,
                                               const std::string& origin);

/// How far the shop has come, and its first act's digest.
struct ShopMark {
    HistoryMark history;
    std::string origin;
};
Result<ShopMark> mark_of(ShopFile& shop);

} // namespace rodway
