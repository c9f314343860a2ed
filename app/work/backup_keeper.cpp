#include "app/work/backup_keeper.h"

#include <QSettings>

#include "app/work/clock.h"
#include "db/backups.h"

namespace rodway {
namespace {

constexpr int look_every_ms = 60 * 60 * 1000;
constexpr const char* second_place_key = "backups/second_folder";

Result<BackupPlaceNews> look_at(ShopFile& shop, const std::string& place,
                                const std::string& now_utc, std::chrono::seconds interval) {
    const auto now = backup_time_from(now_utc);
    RODWAY_ASSERT(now.has_value());
    const auto mark = mark_of(shop);
    if (!mark) {
        return mark.error();
    }
    const std::string folder = backups_folder(shop.path(), place);
    const auto there = backups_in(folder);
    std::vector<BackupMark> marks;
    if (there) {
        marks = marks_of(*there, mark->origin);
    }
    BackupPlaceNews news;
    if (!there) {
        news.failure = there.error();
    } else if (needs_back_up(marks, mark->history, *now, interval)) {
        const auto made = back_up(shop, place, now_utc);
        if (made) {
            marks.push_back({made->backup.name.made, *made->backup.history});
            const auto thinned = thin_backups(shop, place, now_utc);
            if (!thinned) {
                news.failure = thinned.error();
            }
        } else {
            news.failure = made.error();
        }
    }
    std::vector<BackupTime> times;
    times.reserve(marks.size());
    for (const BackupMark& backup : marks) {
        times.push_back(backup.made);
    }
    news.newest = newest_backup(times, *now);
    news.overdue = needs_back_up(marks, mark->history, *now, backup_overdue_after);
    return news;
}

} // namespace

BackupNews keep_backed_up(const std::string& shop_path, const std::string& second_place,
                          const std::string& now_utc, std::chrono::seconds interval) {
    const auto failed = [](const Error& error) {
        BackupPlaceNews news;
        news.failure = error;
        return news;
    };
    BackupNews news;
    auto opened = ShopFile::open(shop_path);
    if (!opened) {
        news.own = failed(opened.error());
        return news;
    }
    ShopFile shop = std::move(opened).value();
    const auto own = look_at(shop, {}, now_utc, interval);
    news.own = own ? *own : failed(own.error());
    if (!second_place.empty()) {
        const auto second = look_at(shop, second_place, now_utc, interval);
        news.second = second ? *second : failed(second.error());
    }
    return news;
}

BackupKeeper::BackupKeeper(QObject* parent) : QObject(parent) {
    pool_.setMaxThreadCount(1);
    connect(&hourly_, &QTimer::timeout, this, [this] { look(); });
    hourly_.start(look_every_ms);
}

BackupKeeper::~BackupKeeper() {
    pool_.waitForDone();
}

void BackupKeeper::watch(const QString& shop_path) {
    finish();
    shop_path_ = shop_path;
    look();
}

void BackupKeeper::look(bool at_once) {
    if (shop_path_.isEmpty()) {
        return;
    }
    const auto interval = at_once ? std::chrono::seconds(0) : backup_interval;
    pool_.start([this, shop = shop_path_, second = second_place().toStdString(), interval] {
        const BackupNews news = keep_backed_up(shop.toStdString(), second, now_utc(), interval);
        // Told on the window's thread; the destructor waits for this one.
        QMetaObject::invokeMethod(this, [this, shop, news] {
            if (shop == shop_path_) {
                emit told(news);
            }
        });
    });
}

void BackupKeeper::finish() {
    if (shop_path_.isEmpty()) {
        return;
    }
    const QString shop = std::exchange(shop_path_, QString());
    pool_.start([shop, second = second_place().toStdString()] {
        static_cast<void>(
            keep_backed_up(shop.toStdString(), second, now_utc(), backup_interval_at_closing));
    });
    pool_.waitForDone();
}

QString BackupKeeper::second_place() {
    return QSettings().value(second_place_key).toString();
}

void BackupKeeper::set_second_place(const QString& folder) {
    QSettings().setValue(second_place_key, folder);
}

} // namespace rodway
