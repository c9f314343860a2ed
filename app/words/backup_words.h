#pragma once

#include <QString>
#include <optional>

#include "core/base/error.h"
#include "db/backup_names.h"

namespace rodway::words {

/// How old a backup is, by this computer's calendar: "today 14:05", "yesterday 14:05", "3 days
/// ago", "none yet", or its date if that lies ahead.
[[nodiscard]] QString backup_age(const std::optional<BackupTime>& newest, BackupTime now);

/// "Last backup: today 14:05 · on the second disk: 3 days ago". `second` is absent if there is no
/// second place; it holds nothing if there is no backup there.
[[nodiscard]] QString last_backup(const std::optional<BackupTime>& own,
                                  const std::optional<std::optional<BackupTime>>& second,
                                  BackupTime now);

/// What keeps a backup from being made, and that work goes on without one.
[[nodiscard]] QString backup_failed(const Error& error, bool second_place);
[[nodiscard]] QString backup_overdue(const std::optional<BackupTime>& newest, bool second_place,
                                     BackupTime now);

/// What a file in the folder of backups is.
[[nodiscard]] QString backup_kind(BackupKind kind);

/// Why a restore was refused, if it is because the shop is open.
[[nodiscard]] QString shop_in_use(const QString& shop);

} // namespace rodway::words
