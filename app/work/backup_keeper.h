#pragma once

#include <QObject>
#include <QString>
#include <QThreadPool>
#include <QTimer>
#include <optional>

#include "core/base/error.h"
#include "db/backup_schedule.h"

namespace rodway {

/// How a shop's backups stand at one place.
struct BackupPlaceNews {
    std::optional<BackupTime> newest;
    std::optional<Error> failure; ///< why the backup that was due couldn't be made
    bool overdue = false; ///< work that no backup holds, and the newest is older than a week
};

struct BackupNews {
    BackupPlaceNews own;                   ///< beside the shop file
    std::optional<BackupPlaceNews> second; ///< at the second place, if one is set
};

/// Work without a backup for so long is told.
inline constexpr std::chrono::seconds backup_overdue_after = std::chrono::hours(7 * 24);

/// Opens the shop, makes the backups that are due at its own and the second place (none if empty),
/// thins the old ones, and tells how they stand. `interval`: see `needs_back_up`. Safe on any
/// thread, for it has a connection of its own.
[[nodiscard]] BackupNews keep_backed_up(const std::string& shop_path,
                                        const std::string& second_place, const std::string& now_utc,
                                        std::chrono::seconds interval);

/// Keeps the shop in hand backed up: looks when it is opened, every hour, and when it is closed.
/// The work is done on a thread of its own.
class BackupKeeper : public QObject {
    Q_OBJECT

  public:
    explicit BackupKeeper(QObject* parent = nullptr);
    /// Waits for a backup that is being made.
    ~BackupKeeper() override;

    /// From now on this shop, the one before being finished.
    void watch(const QString& shop_path);
    /// Looks now; `at_once`: a backup is made of whatever isn't backed up yet, however fresh the
    /// newest is.
    void look(bool at_once = false);
    /// The last look at the shop in hand; waits for it.
    void finish();

    /// A folder on another disk of this computer; empty if none is set.
    [[nodiscard]] static QString second_place();
    static void set_second_place(const QString& folder);

  signals:
    void told(const rodway::BackupNews& news);

  private:
    QString shop_path_;
    QThreadPool pool_;
    QTimer hourly_;
};

} // namespace rodway
