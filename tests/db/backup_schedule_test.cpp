#include "db/backup_schedule.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QDate>
#include <QDateTime>
#include <algorithm>
#include <random>
#include <set>

namespace rodway {
namespace {

using namespace std::chrono_literals;
using ::testing::ElementsAre;

BackupTime at(const std::string& text) {
    const auto time = backup_time_from(text);
    if (!time) throw std::runtime_error("no time: " + text);
    return *time;
}

QDateTime qt_time(BackupTime time) {
    return QDateTime::fromSecsSinceEpoch(time.time_since_epoch().count(), Qt::UTC);
}

/// Year and number of the week by ISO 8601, as Qt counts them.
std::pair<int, int> iso_week(BackupTime time) {
    std::pair<int, int> week;
    week.second = qt_time(time).date().weekNumber(&week.first);
    return week;
}

std::string iso_month(BackupTime time) {
    return qt_time(time).toString("yyyy-MM").toStdString();
}

/// The slow, obvious twin: each backup by itself, against all the others.
bool stays(const std::vector<BackupTime>& times, std::size_t i, BackupTime now) {
    if (times[i] > now) return true;
    int newer = 0;
    bool newest_of_week = true;
    bool newest_of_month = true;
    std::set<std::pair<int, int>> newer_weeks;
    for (std::size_t j = 0; j < times.size(); ++j) {
        const bool is_newer =
            times[j] <= now && (times[j] > times[i] || (times[j] == times[i] && j < i));
        if (!is_newer) continue;
        ++newer;
        newest_of_week &= iso_week(times[j]) != iso_week(times[i]);
        newest_of_month &= iso_month(times[j]) != iso_month(times[i]);
        newer_weeks.insert(iso_week(times[j]));
    }
    return newer < 10 || (newest_of_week && newer_weeks.size() < 12) || newest_of_month;
}

std::vector<BackupTime> random_times(std::mt19937& random) {
    const auto below = [&](int end) {
        return static_cast<int>(random() % static_cast<unsigned>(end));
    };
    const int span_days = std::array{2, 20, 200, 3000}[static_cast<std::size_t>(below(4))];
    // Some sets stand on whole days, where weeks and months meet to the second.
    const int grain_s = std::array{1, 3600, 86400}[static_cast<std::size_t>(below(3))];
    const BackupTime begin = at("2023-12-20T00:00:00Z") + std::chrono::days(below(400));
    std::vector<BackupTime> times;
    for (int i = below(60); i > 0; --i) {
        const auto second = static_cast<std::int64_t>(random()) % (std::int64_t{span_days} * 86400);
        times.push_back(begin + std::chrono::seconds(second / grain_s * grain_s));
    }
    return times;
}

TEST(BackupSchedule, KeepsWhatTheSlowTwinKeepsOfRandomSetsOfDates) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    int kept = 0;
    int dropped = 0;
    int ahead = 0;
    for (int round = 0; round < 4000; ++round) {
        const std::vector<BackupTime> times = random_times(random);
        // A clock that is right, or set back to among the backups or before them.
        BackupTime now = at("2033-01-01T00:00:00Z");
        if (round % 3 == 1 && !times.empty()) now = times[random() % times.size()];
        if (round % 3 == 2) now = at("2024-03-01T00:00:00Z");
        const std::vector<bool> keep = backups_to_keep(times, now);
        ASSERT_EQ(keep.size(), times.size());
        for (std::size_t i = 0; i < times.size(); ++i) {
            ASSERT_EQ(keep[i], stays(times, i, now))
                << "round " << round << ": " << utc_text(times[i]) << " at " << utc_text(now);
            ++(keep[i] ? kept : dropped);
            if (times[i] > now) ++ahead;
        }
    }
    EXPECT_GT(kept, 10000);
    EXPECT_GT(dropped, 10000);
    EXPECT_GT(ahead, 10000);
}

TEST(BackupSchedule, DropsNothingMoreOfWhatItKept) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const BackupTime now = at("2033-01-01T00:00:00Z");
    for (int round = 0; round < 1000; ++round) {
        const std::vector<BackupTime> times = random_times(random);
        const std::vector<bool> keep = backups_to_keep(times, now);
        std::vector<BackupTime> kept;
        for (std::size_t i = 0; i < times.size(); ++i) {
            if (keep[i]) kept.push_back(times[i]);
        }
        const std::vector<bool> again = backups_to_keep(kept, now);
        ASSERT_EQ(std::count(again.begin(), again.end(), true), static_cast<long>(kept.size()));
    }
}

// Day after day for three years, thinned after each: what a shop ends up with.
TEST(BackupSchedule, LeavesTenDaysTwelveWeeksAndEveryMonthOfYearsOfWork) {
    std::vector<BackupTime> there;
    BackupTime now = at("2023-01-01T17:00:00Z");
    for (int day = 0; day < 3 * 365; ++day, now += 24h) {
        there.push_back(now);
        const std::vector<bool> keep = backups_to_keep(there, now);
        std::vector<BackupTime> left;
        for (std::size_t i = 0; i < there.size(); ++i) {
            if (keep[i]) left.push_back(there[i]);
        }
        there = left;
        ASSERT_EQ(there.back(), now) << "the newest";
    }
    now -= 24h;
    std::set<std::string> months;
    std::set<std::pair<int, int>> weeks;
    int days = 0;
    for (const BackupTime time : there) {
        months.insert(iso_month(time));
        if (now - time < std::chrono::days(10)) ++days;
        if (now - time < std::chrono::weeks(11)) weeks.insert(iso_week(time));
    }
    EXPECT_EQ(days, 10);
    EXPECT_GE(weeks.size(), 11U);
    EXPECT_EQ(months.size(), 36U);
    EXPECT_LE(there.size(), 10U + 12U + 36U);
}

TEST(BackupSchedule, KeepsANewBackupThatAClockSetBackMakesLookOld) {
    std::vector<BackupTime> times;
    for (int i = 0; i < 30; ++i)
        times.push_back(at("2030-05-01T00:00:00Z") + std::chrono::hours(i));
    times.push_back(at("2026-03-01T12:00:00Z"));
    const std::vector<bool> keep = backups_to_keep(times, at("2026-03-01T12:00:00Z"));
    EXPECT_EQ(std::count(keep.begin(), keep.end(), true), 31);
}

TEST(BackupSchedule, ReadsTimesAsRecordsKeepThemAndNoOthers) {
    // Second by `date -u -d 2026-03-01T12:34:56Z +%s`.
    EXPECT_EQ(at("2026-03-01T12:34:56Z").time_since_epoch().count(), 1772368496);
    EXPECT_EQ(at("1970-01-01T00:00:00Z").time_since_epoch().count(), 0);
    EXPECT_TRUE(backup_time_from("2024-02-29T23:59:59Z"));
    for (const char* text :
         {"", "2026-03-01", "2026-03-01T12:34:56", "2026-02-29T12:34:56Z", "2026-13-01T12:34:56Z",
          "2026-00-01T12:34:56Z", "2026-03-32T12:34:56Z", "2026-03-01T24:00:00Z",
          "2026-03-01T12:60:00Z", "2026-03-01T12:00:60Z", "2026-03-01 12:34:56Z",
          "2026-03-01T12:34:5xZ", "-026-03-01T12:34:56Z", "2026-03-01T12:34:56Z "}) {
        EXPECT_FALSE(backup_time_from(text)) << text;
    }
    std::mt19937 random(7);
    for (int i = 0; i < 1000; ++i) {
        const BackupTime time{std::chrono::seconds(random())};
        EXPECT_EQ(utc_text(time), qt_time(time).toString(Qt::ISODate).toStdString());
        EXPECT_EQ(at(utc_text(time)), time);
    }
}

const HistoryMark act_7{7, "2026-03-01T09:00:00Z"};
const HistoryMark act_8{8, "2026-03-01T10:00:00Z"};

TEST(BackupIsDue, OnlyWhenSomethingWasDoneThatNoBackupHas) {
    const BackupTime now = at("2026-06-01T12:00:00Z");
    EXPECT_FALSE(needs_back_up({}, {}, now)) << "nothing was ever done";
    EXPECT_TRUE(needs_back_up({}, act_7, now));
    EXPECT_FALSE(needs_back_up({{now - 90 * 24h, act_7}}, act_7, now));
    EXPECT_TRUE(needs_back_up({{now - 90 * 24h, act_7}}, act_8, now));
    // An older backup was restored, and work went on from there to the same number.
    const HistoryMark another_8{8, "2026-03-05T10:00:00Z"};
    EXPECT_TRUE(needs_back_up({{now - 90 * 24h, act_8}}, another_8, now));
    EXPECT_TRUE(needs_back_up({{now - 90 * 24h, act_8}}, act_7, now));
}

TEST(BackupIsDue, WhenTheNewestIsADayOldToTheSecond) {
    const BackupTime now = at("2026-06-01T12:00:00Z");
    EXPECT_FALSE(needs_back_up({{now - 24h + 1s, act_7}}, act_8, now));
    EXPECT_TRUE(needs_back_up({{now - 24h, act_7}}, act_8, now));
    EXPECT_FALSE(
        needs_back_up({{now - 48h, act_7}, {now - 1h, act_7}, {now - 72h, {}}}, act_8, now));
    EXPECT_TRUE(needs_back_up({{now - 12h, act_7}}, act_8, now, 12h));
}

TEST(BackupIsDue, OnceAndNotForeverAfterAClockWasSetBack) {
    const BackupTime now = at("2026-06-01T12:00:00Z");
    const BackupMark ahead{now + 1000 * 24h, act_7};
    EXPECT_TRUE(needs_back_up({ahead}, act_8, now));
    EXPECT_FALSE(needs_back_up({ahead, {now, act_7}}, act_8, now + 1h));
    EXPECT_FALSE(needs_back_up({ahead}, act_7, now)) << "it holds all there is";
}

TEST(NewestBackup, IsTheNewestThatIsNotAhead) {
    const BackupTime now = at("2026-06-01T12:00:00Z");
    EXPECT_EQ(newest_backup({}, now), std::nullopt);
    EXPECT_EQ(newest_backup({now - 2h, now - 1h, now - 3h, now + 5h}, now), now - 1h);
    EXPECT_EQ(newest_backup({now}, now), now);
    EXPECT_EQ(newest_backup({now + 6h, now + 5h}, now), now + 5h);
}

} // namespace
} // namespace rodway
