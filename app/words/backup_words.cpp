#include "app/words/backup_words.h"

#include <QCoreApplication>
#include <QDateTime>

#include "app/words/error_text.h"

namespace rodway::words {
namespace {

struct Backups {
    Q_DECLARE_TR_FUNCTIONS(Backups)
};

QDateTime local(BackupTime time) {
    return QDateTime::fromSecsSinceEpoch(time.time_since_epoch().count());
}

} // namespace

QString backup_age(const std::optional<BackupTime>& newest, BackupTime now) {
    if (!newest) {
        return Backups::tr("none yet");
    }
    const QDateTime made = local(*newest);
    const QString clock = made.toString("HH:mm");
    if (*newest > now) {
        return Backups::tr("dated ahead, %1 %2: check the clock")
            .arg(made.date().toString(Qt::ISODate), clock);
    }
    const qint64 days = made.date().daysTo(local(now).date());
    if (days <= 0) {
        return Backups::tr("today %1").arg(clock);
    }
    if (days == 1) {
        return Backups::tr("yesterday %1").arg(clock);
    }
    return Backups::tr("%n days ago", nullptr, static_cast<int>(days));
}

QString last_backup(const std::optional<BackupTime>& own,
                    const std::optional<std::optional<BackupTime>>& second, BackupTime now) {
    const QString text = Backups::tr("Last backup: %1").arg(backup_age(own, now));
    return second ? Backups::tr("%1 · on the second disk: %2").arg(text, backup_age(*second, now))
                  : text;
}

QString backup_failed(const Error& error, bool second_place) {
    return (second_place ? Backups::tr("The backup on the second disk could not be made. %1")
                         : Backups::tr("The backup could not be made. %1"))
        .arg(error_text(error));
}

QString backup_overdue(const std::optional<BackupTime>& newest, bool second_place, BackupTime now) {
    return (second_place ? Backups::tr("What was done lately has no backup on the second disk; "
                                       "the newest there: %1.")
                         : Backups::tr("What was done lately has no backup; the newest: %1."))
        .arg(backup_age(newest, now));
}

QString backup_kind(BackupKind kind) {
    switch (kind) {
        case BackupKind::dated:
            return Backups::tr("backup");
        case BackupKind::before_restore:
            return Backups::tr("what a restore replaced");
        case BackupKind::damaged:
            return Backups::tr("damaged shop that a restore replaced");
    }
    return {};
}

QString shop_in_use(const QString& shop) {
    return Backups::tr(
               "%1 is open in a window or another program. Close it there, then restore again. "
               "Nothing was changed.")
        .arg(shop);
}

} // namespace rodway::words
