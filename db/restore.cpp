#include "db/restore.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <array>
#include <optional>
#include <utility>

#include "db/attachments.h"
#include "db/backup_names.h"
#include "db/connection.h"
#include "db/durable_file.h"
#include "db/migrations.h"
#include "db/whole_copy.h"

namespace rodway {
namespace {

/// A shop file's own files: itself, and what SQLite may keep beside it.
constexpr std::array<const char*, 4> file_suffixes{"", "-wal", "-journal", "-shm"};

Error file_error(ErrorCode code, const QString& path, std::string value = {}) {
    return Error{code, path.toStdString(), std::move(value), {}, {}, {}};
}

/// The shop file to be replaced: absolute, links followed.
Result<QString> target_of(const std::string& shop_path, const QFileInfo& backup) {
    QFileInfo shop(QString::fromStdString(shop_path));
    if (shop.exists()) shop.setFile(shop.canonicalFilePath());
    const QString path = shop.absoluteFilePath();
    if (shop.exists() && !shop.isFile()) {
        return file_error(ErrorCode::cannot_write, path, "exists");
    }
    if (path == backup.canonicalFilePath()) {
        return file_error(ErrorCode::cannot_write, path, "same_file");
    }
    const QFileInfo folder(shop.absolutePath());
    if (!folder.isDir()) return file_error(ErrorCode::cannot_write, path, "no_folder");
    const bool writable = folder.isWritable() && (!shop.exists() || shop.isWritable());
    if (!writable) return file_error(ErrorCode::cannot_write, path, "no_permission");
    return path;
}

/// The files of a shop that can't be read, copied byte for byte, as yet without lasting names.
class RawCopies {
  public:
    static Result<RawCopies> make(const QString& shop, const std::string& folder) {
        RawCopies copies;
        for (const char* suffix : file_suffixes) {
            const QString path = shop + QLatin1String(suffix);
            // SQLite makes the index of a log anew.
            if (path.endsWith(QStringLiteral("-shm")) || !QFileInfo::exists(path)) continue;
            auto begun = DurableFile::begin(folder);
            if (!begun) return begun.error();
            DurableFile copy = std::move(begun).value();
            QFile file(path);
            if (!file.open(QIODevice::ReadOnly)) {
                // One that went away meanwhile tells of another program at work.
                const bool there = QFileInfo::exists(path);
                return file_error(there ? ErrorCode::cannot_read : ErrorCode::locked_file, path);
            }
            constexpr qint64 piece_size = 1 << 18;
            QByteArray piece;
            while (!(piece = file.read(piece_size)).isEmpty()) {
                const auto written =
                    copy.write({piece.constData(), static_cast<std::size_t>(piece.size())});
                if (!written) return written.error();
            }
            // What the disk doesn't give is lost already; a copy that hides it would be a lie.
            if (file.error() != QFileDevice::NoError) {
                return file_error(ErrorCode::cannot_read, path);
            }
            copies.files_.emplace_back(suffix, std::move(copy));
        }
        return copies;
    }

    Result<std::vector<std::string>> keep_as(const std::string& folder, const BackupName& name) {
        const std::string path = free_backup_path(folder, name);
        std::vector<std::string> kept;
        for (auto& [suffix, file] : files_) {
            kept.push_back(path);
            kept.back() += suffix;
            if (const auto done = file.commit(kept.back()); !done) return done.error();
        }
        return kept;
    }

  private:
    std::vector<std::pair<std::string, DurableFile>> files_;
};

/// Whether a whole copy can be made of what stands there.
enum class Standing { sound, unreadable };

Result<Standing> judge(Connection& shop) {
    auto seen = glance_at(shop);
    auto sound = seen ? refuse_unsound(shop, false) : Result<Done>(seen.error());
    if (sound) return Standing::sound;
    const Error& error = sound.error();
    if (error.code == ErrorCode::locked_file) return error;
    if (error.code != ErrorCode::foreign_file) return Standing::unreadable;
    const QFileInfo file(QString::fromStdString(shop.path()));
    // A sound database of another program, or no database under a name that isn't a shop's, is
    // rather a mistaken path than a damaged shop.
    const bool database = file.size() > 0 && refuse_unsound(shop, false).ok();
    const bool named_a_shop = file.suffix() == QStringLiteral("rodway");
    if (database || !named_a_shop) return error;
    return Standing::unreadable;
}

/// What stood in the shop's place: its copies, and the lock on it.
struct PutAside {
    std::vector<std::string> kept;
    std::optional<Connection> alone; ///< holds the shop until it is replaced, if it could be read
};

bool anything_stands(const QString& shop) {
    for (const char* suffix : file_suffixes) {
        if (QFileInfo::exists(shop + QLatin1String(suffix))) return true;
    }
    return false;
}

Result<PutAside> put_aside(const QString& shop, BackupTime when,
                           std::chrono::milliseconds patience) {
    PutAside aside;
    if (!anything_stands(shop)) return aside;
    const std::string path = shop.toStdString();
    const std::string folder = backups_folder(path);
    const QFileInfo folder_info(QString::fromStdString(folder));
    const auto there = make_folder_durably(folder_info.absolutePath().toStdString(),
                                           folder_info.fileName().toStdString());
    if (!there) return there.error();
    // Before SQLite opens it: at closing it would play a damaged log into a damaged file.
    auto copied = RawCopies::make(shop, folder);
    if (!copied) return copied.error();
    RawCopies raw = std::move(copied).value();
    auto standing = Result<Standing>(Standing::unreadable);
    if (QFileInfo::exists(shop)) {
        if (auto opened = Connection::open_existing(path, patience)) {
            Connection connection = std::move(opened).value();
            standing = judge(connection);
            if (!standing) return standing.error();
        }
        const bool sound = *standing == Standing::sound;
        auto alone = Connection::open_alone(path, patience);
        if (!alone && (sound || alone.error().code == ErrorCode::locked_file)) {
            return alone.error();
        }
        if (sound) aside.alone.emplace(std::move(alone).value());
    }
    const BackupName name{shop_name(path), BackupKind::before_restore, when, 1};
    if (!aside.alone) {
        BackupName damaged = name;
        damaged.kind = BackupKind::damaged;
        auto kept = raw.keep_as(folder, damaged);
        if (!kept) return kept.error();
        aside.kept = std::move(kept).value();
        return aside;
    }
    auto whole = WholeCopy::make(*aside.alone, folder);
    if (!whole) return whole.error();
    WholeCopy copy = std::move(whole).value();
    const auto kept = copy.keep_as(name);
    if (!kept) return kept.error();
    aside.kept.push_back(*kept);
    return aside;
}

/// A program that opened the old file in the last moment still waits for its lock. Without the mark
/// of a shop it refuses what it has in hand instead of writing where nobody reads again.
void disown(Connection& replaced) {
    // In memory: a journal would lie beside the new file, under its name.
    static_cast<void>(replaced.single(QStringLiteral("PRAGMA journal_mode = MEMORY")));
    static_cast<void>(replaced.run(QStringLiteral("PRAGMA application_id = 0")));
}

Result<Done> swap(WholeCopy& incoming, const QString& shop, PutAside& aside) {
#ifdef _WIN32
    aside.alone.reset(); // an open file can't be replaced there
#endif
    // A log or journal left by the old file would be played into the new one.
    for (const char* suffix : file_suffixes) {
        const QString path = shop + QLatin1String(suffix);
        if (path == shop || !QFileInfo::exists(path)) continue;
        if (!QFile::remove(path)) return file_error(ErrorCode::cannot_write, path, "other");
    }
    if (const auto replaced = incoming.replace(shop.toStdString()); !replaced) return replaced;
    if (aside.alone) disown(*aside.alone);
    return Done{};
}

/// The backup's content beside the shop, ready to take its place.
Result<WholeCopy> bring_in(const std::string& backup, const QString& shop, Restored& restored,
                           std::chrono::milliseconds patience) {
    auto opened = Connection::open_existing(backup, patience);
    if (!opened) return opened.error();
    Connection source = std::move(opened).value();
    if (const auto seen = glance_at(source); !seen) return seen.error();
    if (const auto sound = refuse_unsound(source, true); !sound) return sound.error();
    const std::string folder = QFileInfo(shop).absolutePath().toStdString();
    auto incoming = WholeCopy::make(source, folder);
    if (!incoming) return incoming;
    const std::string from = photos_folder(backup);
    const std::string to = photos_folder(shop.toStdString());
    if (from != to) {
        const auto photos = copy_photos(from, to);
        if (!photos) return photos.error();
        restored.photos_copied = photos->copied;
    }
    auto missing = missing_photos(source, to);
    if (!missing) return missing.error();
    restored.photos_missing = std::move(missing).value();
    return incoming;
}

} // namespace

Result<Restored> restore(const std::string& backup_path, const std::string& shop_path,
                         const std::string& when_utc, std::chrono::milliseconds patience) {
    const auto when = backup_time_from(when_utc);
    RODWAY_ASSERT(when.has_value());
    const QFileInfo backup(QString::fromStdString(backup_path));
    if (!backup.isFile() || !backup.isReadable()) {
        return file_error(ErrorCode::cannot_read, backup.absoluteFilePath());
    }
    const auto shop = target_of(shop_path, backup);
    if (!shop) return shop.error();
    Restored restored;
    auto brought = bring_in(backup.canonicalFilePath().toStdString(), *shop, restored, patience);
    if (!brought) return brought.error();
    WholeCopy incoming = std::move(brought).value();
    restored.history = incoming.content().history;
    auto put = put_aside(*shop, *when, patience);
    if (!put) return put.error();
    PutAside aside = std::move(put).value();
    if (const auto swapped = swap(incoming, *shop, aside); !swapped) return swapped.error();
    restored.kept = std::move(aside.kept);
    return restored;
}

} // namespace rodway
