#include "db/backup_schedule.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <numeric>
#include <string_view>

namespace rodway {
namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

/// The number written in these digits, if nothing else is.
std::optional<int> digits(std::string_view text) {
    int number = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        number = number * 10 + (c - '0');
    }
    return number;
}

sys_days day_of(BackupTime time) {
    return std::chrono::floor<std::chrono::days>(time);
}

/// The week's Monday.
sys_days week_of(BackupTime time) {
    const sys_days day = day_of(time);
    return day - (std::chrono::weekday(day) - std::chrono::Monday);
}

std::chrono::year_month month_of(BackupTime time) {
    const year_month_day date(day_of(time));
    return date.year() / date.month();
}

} // namespace

std::optional<BackupTime> backup_time_from(const std::string& when_utc) {
    constexpr std::string_view form = "####-##-##T##:##:##Z";
    if (when_utc.size() != form.size()) return std::nullopt;
    for (std::size_t i = 0; i < form.size(); ++i) {
        if (form[i] != '#' && form[i] != when_utc[i]) return std::nullopt;
    }
    const std::string_view text = when_utc;
    std::array<int, 6> parts{};
    constexpr std::array<std::pair<std::size_t, std::size_t>, 6> places{
        {{0, 4}, {5, 2}, {8, 2}, {11, 2}, {14, 2}, {17, 2}}};
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const auto number = digits(text.substr(places[i].first, places[i].second));
        if (!number) return std::nullopt;
        parts[i] = *number;
    }
    const year_month_day date{std::chrono::year(parts[0]),
                              std::chrono::month(static_cast<unsigned>(parts[1])),
                              std::chrono::day(static_cast<unsigned>(parts[2]))};
    if (!date.ok() || parts[3] > 23 || parts[4] > 59 || parts[5] > 59) return std::nullopt;
    return sys_days(date) + std::chrono::hours(parts[3]) + std::chrono::minutes(parts[4]) +
           std::chrono::seconds(parts[5]);
}

std::string utc_text(BackupTime time) {
    const sys_days day = day_of(time);
    const year_month_day date(day);
    const std::chrono::hh_mm_ss clock(time - day);
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%04d-%02u-%02uT%02d:%02d:%02dZ",
                  static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                  static_cast<unsigned>(date.day()), static_cast<int>(clock.hours().count()),
                  static_cast<int>(clock.minutes().count()),
                  static_cast<int>(clock.seconds().count()));
    return text.data();
}

std::vector<bool> backups_to_keep(const std::vector<BackupTime>& times, BackupTime now) {
    std::vector<std::size_t> newest_first(times.size());
    std::iota(newest_first.begin(), newest_first.end(), std::size_t{0});
    std::stable_sort(newest_first.begin(), newest_first.end(),
                     [&](std::size_t a, std::size_t b) { return times[a] > times[b]; });
    std::vector<bool> keep(times.size(), false);
    int counted = 0;
    int weeks = 0;
    std::optional<sys_days> week;
    std::optional<std::chrono::year_month> month;
    for (const std::size_t i : newest_first) {
        if (times[i] > now) {
            keep[i] = true;
            continue;
        }
        if (counted++ < newest_backups_kept) keep[i] = true;
        if (week != week_of(times[i])) {
            week = week_of(times[i]);
            if (weeks++ < weekly_backups_kept) keep[i] = true;
        }
        if (month != month_of(times[i])) {
            month = month_of(times[i]);
            keep[i] = true;
        }
    }
    return keep;
}

std::optional<BackupTime> newest_backup(const std::vector<BackupTime>& times, BackupTime now) {
    std::optional<BackupTime> newest;
    std::optional<BackupTime> earliest_ahead;
    for (const BackupTime time : times) {
        if (time <= now) {
            newest = std::max(newest.value_or(time), time);
        } else {
            earliest_ahead = std::min(earliest_ahead.value_or(time), time);
        }
    }
    return newest ? newest : earliest_ahead;
}

bool needs_back_up(const std::vector<BackupMark>& backups, const HistoryMark& shop, BackupTime now,
                   std::chrono::seconds interval) {
    if (shop.act == 0) return false;
    std::optional<BackupTime> newest;
    for (const BackupMark& backup : backups) {
        if (backup.history == shop) return false;
        if (backup.made <= now) newest = std::max(newest.value_or(backup.made), backup.made);
    }
    return !newest || now - *newest >= interval;
}

} // namespace rodway
