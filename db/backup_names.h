#pragma once

#include <optional>
#include <string>

#include "db/backup_schedule.h"

namespace rodway {

enum class BackupKind {
    dated,          ///< `shop.backup-2026-03-01T120000Z.rodway`
    before_restore, ///< `shop.before-restore-…`: what a restored backup replaced
    damaged,        ///< `shop.damaged-…`: the same byte for byte, as it couldn't be read
};

/// What the name of a backup says. Names sort by time, are legal on every system, and end in `-2`,
/// `-3` … before the suffix if several were made in one second.
struct BackupName {
    std::string shop; ///< the shop file's name without its suffix
    BackupKind kind = BackupKind::dated;
    BackupTime made;
    int copy = 1; ///< the how-manieth of its second
};

/// Nothing if it isn't a name that Rodway gives. `file_name` has no folder.
[[nodiscard]] std::optional<BackupName> backup_name_from(const std::string& file_name);

[[nodiscard]] std::string backup_file_name(const BackupName& name);

/// The path in `folder` with the lowest `copy` that nothing has, with or without a log behind it.
[[nodiscard]] std::string free_backup_path(const std::string& folder, BackupName name);

/// Name of a shop file without folder and suffix.
[[nodiscard]] std::string shop_name(const std::string& shop_path);

/// Where backups of the shop file at this path lie: `<place>/<shop's name>.backups`, and their
/// photos in `<place>/<shop's name>.photos`. An empty place is the shop file's own folder.
[[nodiscard]] std::string backups_folder(const std::string& shop_path,
                                         const std::string& place = {});

} // namespace rodway
