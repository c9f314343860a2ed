#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rodway {

/// UTC, to the second.
using BackupTime = std::chrono::sys_seconds;

/// From text as records keep it, 2026-03-01T12:00:00Z. Nothing for another form, or for a date or
/// time of day that there isn't.
[[nodiscard]] std::optional<BackupTime> backup_time_from(const std::string& when_utc);

/// Back to 2026-03-01T12:00:00Z. Years 0 to 9999.
[[nodiscard]] std::string utc_text(BackupTime time);

/// How many backups stay.
inline constexpr int newest_backups_kept = 10;
inline constexpr int weekly_backups_kept = 12;

/// Which of the backups made at `times` stay when old ones are thinned, in the order of `times`:
/// the newest 10; the last one of each of the newest 12 weeks (Monday to Sunday, UTC) that have
/// any; the last one of every month. Weeks are counted, not measured from `now`, so that neither a
/// long pause nor a clock that ran ahead costs old backups. What is dated after `now` stays and
/// counts for nothing: a clock that was set back must not make a new backup look like an old one.
[[nodiscard]] std::vector<bool> backups_to_keep(const std::vector<BackupTime>& times,
                                                BackupTime now);

/// How far a shop's history has come: its last act. Number 0 before the first.
struct HistoryMark {
    std::int64_t act = 0;
    std::string when_utc;

    bool operator==(const HistoryMark&) const = default;
};

/// A backup that is there, and what it holds.
struct BackupMark {
    BackupTime made;
    HistoryMark history;
};

/// How old the newest backup may be while the shop is worked in, and when it is closed.
inline constexpr std::chrono::seconds backup_interval = std::chrono::hours(24);
inline constexpr std::chrono::seconds backup_interval_at_closing = std::chrono::hours(12);

/// The newest of the times that aren't after `now`; if all are, the earliest of them, for which a
/// clock is to blame. Nothing if there is none.
[[nodiscard]] std::optional<BackupTime> newest_backup(const std::vector<BackupTime>& times,
                                                      BackupTime now);

/// Whether a shop that has come as far as `shop` is due for a backup: something was done in it that
/// no backup ends with, and the newest backup that isn't dated after `now` is `interval` old or
/// there is none.
[[nodiscard]] bool needs_back_up(const std::vector<BackupMark>& backups, const HistoryMark& shop,
                                 BackupTime now, std::chrono::seconds interval = backup_interval);

} // namespace rodway
