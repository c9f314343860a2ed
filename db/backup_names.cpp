#include "db/backup_names.h"

#include <QDir>
#include <QFileInfo>
#include <QRegularExpression>

namespace rodway {
namespace {

QString word(BackupKind kind) {
    switch (kind) {
        case BackupKind::dated:
            return QStringLiteral("backup");
        case BackupKind::before_restore:
            return QStringLiteral("before-restore");
        case BackupKind::damaged:
            return QStringLiteral("damaged");
    }
    return {};
}

} // namespace

std::optional<BackupName> backup_name_from(const std::string& file_name) {
    static const QRegularExpression form(QStringLiteral(
        "\\A(.+)\\.(backup|before-restore|damaged)-"
        "(\\d{4}-\\d\\d-\\d\\d)T(\\d\\d)(\\d\\d)(\\d\\d)Z(-[1-9]\\d*)?\\.rodway\\z"));
    const QRegularExpressionMatch match = form.match(QString::fromStdString(file_name));
    if (!match.hasMatch()) return std::nullopt;
    const auto made = backup_time_from(
        QStringLiteral("%1T%2:%3:%4Z")
            .arg(match.captured(3), match.captured(4), match.captured(5), match.captured(6))
            .toStdString());
    if (!made) return std::nullopt;
    BackupName name{match.captured(1).toStdString(), BackupKind::dated, *made, 1};
    if (match.hasCaptured(7)) name.copy = match.captured(7).mid(1).toInt();
    for (const BackupKind kind : {BackupKind::before_restore, BackupKind::damaged}) {
        if (match.captured(2) == word(kind)) name.kind = kind;
    }
    return name;
}

std::string backup_file_name(const BackupName& name) {
    const QString again = name.copy > 1 ? QStringLiteral("-%1").arg(name.copy) : QString();
    const QString when = QString::fromStdString(utc_text(name.made)).remove(u':');
    return QStringLiteral("%1.%2-%3%4.rodway")
        .arg(QString::fromStdString(name.shop), word(name.kind), when, again)
        .toStdString();
}

std::string free_backup_path(const std::string& folder, BackupName name) {
    const QDir place(QString::fromStdString(folder));
    for (name.copy = 1;; ++name.copy) {
        const QString path = place.filePath(QString::fromStdString(backup_file_name(name)));
        const bool taken = QFileInfo::exists(path) || QFileInfo(path).isSymLink() ||
                           QFileInfo::exists(path + QStringLiteral("-wal")) ||
                           QFileInfo::exists(path + QStringLiteral("-journal"));
        if (!taken) return path.toStdString();
    }
}

std::string shop_name(const std::string& shop_path) {
    return QFileInfo(QString::fromStdString(shop_path)).completeBaseName().toStdString();
}

std::string backups_folder(const std::string& shop_path, const std::string& place) {
    const QDir folder = place.empty() ? QFileInfo(QString::fromStdString(shop_path)).absoluteDir()
                                      : QDir(QString::fromStdString(place));
    return QDir(folder.absolutePath())
        .filePath(QString::fromStdString(shop_name(shop_path)) + QStringLiteral(".backups"))
        .toStdString();
}

} // namespace rodway
