#include "db/backups.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <algorithm>
#include <tuple>
#include <utility>

#include "db/attachments.h"
#include "db/durable_file.h"
#include "db/temporary_files.h"
#include "db/whole_copy.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;

Error file_error(ErrorCode code, const QString& path, std::string value = {}) {
    return Error{code, path.toStdString(), std::move(value), {}, {}, {}};
}

/// Makes the folder of backups; the place itself must be there, or the disk isn't.
Result<Done> make_backups_folder(const std::string& folder) {
    const QFileInfo info(QString::fromStdString(folder));
    if (!QFileInfo(info.absolutePath()).isDir()) {
        return file_error(ErrorCode::cannot_write, info.absolutePath(), "no_folder");
    }
    return make_folder_durably(info.absolutePath().toStdString(), info.fileName().toStdString());
}

/// The photos of backups in this folder.
std::string photos_beside(const std::string& backups_folder, const std::string& shop_path) {
    const QFileInfo folder(QString::fromStdString(backups_folder));
    const QString name = QString::fromStdString(shop_name(shop_path)) + QStringLiteral(".photos");
    return QDir(folder.absolutePath()).filePath(name).toStdString();
}

Result<Done> copy_shop_photos(const ShopFile& shop, const std::string& to, BackupMade& made) {
    const std::string from = photos_folder(shop.path());
    const QString canonical = QFileInfo(QString::fromStdString(from)).canonicalFilePath();
    if (canonical.isEmpty()) return Done{}; // the shop has no photos
    if (QFileInfo(QString::fromStdString(to)).canonicalFilePath() == canonical) return Done{};
    const auto copied = copy_photos(from, to);
    if (!copied) return copied.error();
    made.photos_copied = copied->copied;
    return Done{};
}

/// Reads the file's own account of itself, if it gives one.
void look_into(Backup& backup) {
    auto opened = Connection::open_existing(backup.path, 0ms);
    if (!opened) return;
    Connection connection = std::move(opened).value();
    auto seen = glance_at(connection);
    if (!seen) return;
    backup.history = seen->history;
    backup.origin = seen->origin;
}

/// A log or journal means that somebody has it open, or left something that isn't in it yet.
bool at_rest(const std::string& path) {
    const QString name = QString::fromStdString(path);
    return !QFileInfo::exists(name + QStringLiteral("-wal")) &&
           !QFileInfo::exists(name + QStringLiteral("-journal"));
}

} // namespace

Result<BackupMade> back_up(ShopFile& shop, const std::string& place, const std::string& when_utc) {
    const auto made_at = backup_time_from(when_utc);
    RODWAY_ASSERT(made_at.has_value());
    const std::string folder = backups_folder(shop.path(), place);
    if (const auto there = make_backups_folder(folder); !there) return there.error();
    const std::string photos = photos_beside(folder, shop.path());
    // First, for a full disk may be full of them. The copy looks after its own folder.
    const QFileInfo file(QString::fromStdString(shop.path()));
    for (const std::string& at :
         {file.absolutePath().toStdString(), photos_folder(shop.path()), photos}) {
        remove_stale_temporaries(at);
    }
    BackupMade made;
    auto copied = WholeCopy::make(shop.connection(), folder);
    if (!copied) return copied.error();
    WholeCopy copy = std::move(copied).value();
    const ShopGlance content = copy.content();
    // Between the copy and its name: a photo is kept before the act that tells of it, so none that
    // the copy tells of can be too late, and a backup under its name lacks none.
    if (const auto done = copy_shop_photos(shop, photos, made); !done) return done.error();
    auto missing = missing_photos(shop.connection(), photos);
    if (!missing) return missing.error();
    made.photos_missing = std::move(missing).value();
    const auto path = copy.keep_as({shop_name(shop.path()), BackupKind::dated, *made_at, 1});
    if (!path) return path.error();
    const QFileInfo kept(QString::fromStdString(*path));
    const auto name = backup_name_from(kept.fileName().toStdString());
    RODWAY_ASSERT(name.has_value());
    made.backup = Backup{*path, *name, kept.size(), content.history, content.origin};
    return made;
}

Result<std::vector<Backup>> backups_in(const std::string& folder) {
    const QFileInfo info(QString::fromStdString(folder));
    std::vector<Backup> found;
    if (!info.isDir()) {
        if (!info.exists() && QFileInfo(info.absolutePath()).isDir()) return found;
        return file_error(ErrorCode::cannot_read, info.absoluteFilePath());
    }
    if (!info.isReadable()) return file_error(ErrorCode::cannot_read, info.absoluteFilePath());
    const QDir dir(info.absoluteFilePath());
    for (const QFileInfo& file : dir.entryInfoList(QDir::Files | QDir::NoSymLinks, QDir::Name)) {
        const auto name = backup_name_from(file.fileName().toStdString());
        if (!name) continue;
        Backup backup{file.absoluteFilePath().toStdString(), *name, file.size(), std::nullopt,
                      std::string()};
        // Opening what stays byte for byte as it was could play its log into it.
        if (name->kind != BackupKind::damaged) look_into(backup);
        found.push_back(std::move(backup));
    }
    std::sort(found.begin(), found.end(), [](const Backup& a, const Backup& b) {
        return std::tie(a.name.made, a.name.copy, a.path) <
               std::tie(b.name.made, b.name.copy, b.path);
    });
    return found;
}

Result<std::vector<std::string>> thin_backups(ShopFile& shop, const std::string& place,
                                              const std::string& now_utc) {
    const auto now = backup_time_from(now_utc);
    RODWAY_ASSERT(now.has_value());
    const auto mark = mark_of(shop);
    if (!mark) return mark.error();
    const auto all = backups_in(backups_folder(shop.path(), place));
    if (!all) return all.error();
    std::vector<std::string> paths;
    std::vector<BackupTime> times;
    for (const Backup& backup : *all) {
        const bool ours = backup.name.kind == BackupKind::dated && backup.history &&
                          backup.name.shop == shop_name(shop.path()) && !backup.origin.empty() &&
                          backup.origin == mark->origin;
        if (!ours || !at_rest(backup.path)) continue;
        paths.push_back(backup.path);
        times.push_back(backup.name.made);
    }
    // Oldest first, while of two of one second the one made last is to stay.
    std::reverse(paths.begin(), paths.end());
    std::reverse(times.begin(), times.end());
    const std::vector<bool> keep = backups_to_keep(times, *now);
    std::vector<std::string> removed;
    for (std::size_t i = 0; i < paths.size(); ++i) {
        if (keep[i]) continue;
        const QString path = QString::fromStdString(paths[i]);
        if (!QFile::remove(path)) return file_error(ErrorCode::cannot_write, path, "other");
        removed.push_back(paths[i]);
    }
    return removed;
}

std::vector<BackupMark> marks_of(const std::vector<Backup>& backups, const std::string& origin) {
    std::vector<BackupMark> marks;
    for (const Backup& backup : backups) {
        if (!backup.history || backup.origin != origin) continue;
        marks.push_back({backup.name.made, *backup.history});
    }
    return marks;
}

Result<ShopMark> mark_of(ShopFile& shop) {
    auto seen = glance_at(shop.connection());
    if (!seen) return seen.error();
    return ShopMark{seen->history, seen->origin};
}

} // namespace rodway
