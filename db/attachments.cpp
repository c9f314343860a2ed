#include "db/attachments.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <algorithm>
#include <functional>
#include <utility>

#include "db/durable_file.h"

namespace rodway {
namespace {

/// Lower case letters and digits only, so that the name is one on every system.
QString suffix_of(const QString& file_name) {
    constexpr qsizetype longest = 8;
    const QString suffix = QFileInfo(file_name).suffix().toLower();
    const bool plain = std::all_of(suffix.begin(), suffix.end(), [](QChar c) {
        return (c >= u'a' && c <= u'z') || (c >= u'0' && c <= u'9');
    });
    if (!plain || suffix.isEmpty() || suffix.size() > longest) return QStringLiteral("bin");
    return suffix;
}

Error file_error(ErrorCode code, const QString& path, std::string value = {}) {
    return Error{code, path.toStdString(), std::move(value), {}, {}, {}};
}

/// Digest and size of what was read; every piece is also handed to `take`.
Result<std::pair<std::string, std::int64_t>> read_through(
    const QString& path, const std::function<Result<Done>(std::string_view)>& take) {
    QFile file(path);
    if (!QFileInfo(path).isFile() || !file.open(QIODevice::ReadOnly)) {
        return file_error(ErrorCode::cannot_read, path);
    }
    QCryptographicHash hash(QCryptographicHash::Sha256);
    std::int64_t bytes = 0;
    constexpr qint64 piece_size = 1 << 18;
    QByteArray piece;
    while (!(piece = file.read(piece_size)).isEmpty()) {
        hash.addData(piece);
        bytes += piece.size();
        const auto taken = take({piece.constData(), static_cast<std::size_t>(piece.size())});
        if (!taken) return taken.error();
    }
    if (file.error() != QFileDevice::NoError) return file_error(ErrorCode::cannot_read, path);
    return std::pair(hash.result().toHex().toStdString(), bytes);
}

/// A photo kept by its content: 64 hexadecimal digits and a suffix.
bool is_kept_name(const QString& name) {
    const QString digest = name.section(u'.', 0, 0);
    const bool plain = std::all_of(digest.begin(), digest.end(), [](QChar c) {
        return (c >= u'0' && c <= u'9') || (c >= u'a' && c <= u'f');
    });
    return plain && digest.size() == 64 && name.count(u'.') == 1;
}

Result<Done> make_shelf(const QDir& folder, const QString& shelf) {
    const QFileInfo info(folder.absolutePath());
    const auto made =
        make_folder_durably(info.absolutePath().toStdString(), folder.dirName().toStdString());
    if (!made) return made;
    if (shelf.isEmpty()) return Done{};
    return make_folder_durably(folder.absolutePath().toStdString(), shelf.toStdString());
}

/// Copies one kept photo under its own name; false if its content isn't what the name says.
Result<bool> copy_photo(const QString& source, const QDir& to) {
    const QString name = QFileInfo(source).fileName();
    const QString shelf = name.left(2);
    if (const auto made = make_shelf(to, shelf); !made) return made.error();
    auto begun = DurableFile::begin(to.absolutePath().toStdString());
    if (!begun) return begun.error();
    DurableFile copy = std::move(begun).value();
    const auto read =
        read_through(source, [&copy](std::string_view piece) { return copy.write(piece); });
    if (!read && read.error().code == ErrorCode::cannot_read) return false;
    if (!read) return read.error();
    if (QString::fromStdString(read->first) != name.section(u'.', 0, 0)) return false;
    const auto kept = copy.commit(QDir(to.filePath(shelf)).filePath(name).toStdString());
    if (!kept) return kept.error();
    return true;
}

} // namespace

std::string photos_folder(const std::string& shop_path) {
    const QFileInfo file(QString::fromStdString(shop_path));
    const QDir folder = file.absoluteDir();
    const QString stem = file.completeBaseName();
    const QString ending = QStringLiteral(".photos");
    const QString own = folder.filePath(stem + ending);
    if (QFileInfo(own).isDir()) return own.toStdString();
    const QString backups = QStringLiteral(".backups");
    const QString shop = folder.dirName().left(folder.dirName().lastIndexOf(u'.'));
    if (folder.dirName() == shop + backups && stem.startsWith(shop + u'.')) {
        const QString above = QFileInfo(folder.absolutePath()).absolutePath();
        return QDir(above).filePath(shop + ending).toStdString();
    }
    const QString of_shop =
        folder.filePath(stem.left(stem.indexOf(QStringLiteral(".backup-"))) + ending);
    return (QFileInfo(of_shop).isDir() ? of_shop : own).toStdString();
}

Result<StoredFile> keep(const ShopFile& shop, const std::string& source) {
    const QString path = QString::fromStdString(source);
    // Read before a folder is made: a refused file leaves nothing behind.
    const QFileInfo info(path);
    if (!info.isFile() || !info.isReadable()) return file_error(ErrorCode::cannot_read, path);
    if (info.size() == 0) return file_error(ErrorCode::empty_file, path);
    // Its folder may well be writable: a photo without its record would be left there.
    if (shop.look_only()) {
        return file_error(ErrorCode::cannot_write, QString::fromStdString(shop.path()),
                          "read_only");
    }

    const QDir folder(QString::fromStdString(photos_folder(shop.path())));
    if (const auto made = make_shelf(folder, {}); !made) return made.error();
    auto begun = DurableFile::begin(folder.absolutePath().toStdString());
    if (!begun) return begun.error();
    DurableFile copy = std::move(begun).value();
    const auto read =
        read_through(path, [&copy](std::string_view piece) { return copy.write(piece); });
    if (!read) return read.error();
    const auto& [digest, bytes] = *read;
    if (bytes == 0) return file_error(ErrorCode::empty_file, path);

    StoredFile stored{digest, info.fileName().toStdString(), {}, bytes};
    const QString shelf = QString::fromStdString(digest.substr(0, 2));
    if (const auto made = make_shelf(folder, shelf); !made) return made.error();
    if (const auto kept = path_of(shop, digest)) {
        stored.path = *kept;
        const auto kept_digest = digest_of_file(*kept);
        if (kept_digest && *kept_digest == digest) {
            // Whole, but who kept it may have failed before its name was safe.
            const auto synced = sync_folder(folder.filePath(shelf).toStdString());
            if (!synced) return synced.error();
            return stored;
        }
    } else {
        const QString name = QString::fromStdString(digest) + u'.' + suffix_of(info.fileName());
        stored.path = QDir(folder.filePath(shelf)).filePath(name).toStdString();
    }
    if (const auto committed = copy.commit(stored.path); !committed) return committed.error();
    return stored;
}

std::optional<std::string> path_of(const ShopFile& shop, const std::string& digest) {
    return path_in(photos_folder(shop.path()), digest);
}

std::optional<std::string> path_in(const std::string& photos_folder, const std::string& digest) {
    const QDir folder(QString::fromStdString(photos_folder));
    const QDir shelf(folder.filePath(QString::fromStdString(digest.substr(0, 2))));
    const QString pattern = QString::fromStdString(digest) + QStringLiteral(".*");
    const QStringList names = shelf.entryList({pattern}, QDir::Files, QDir::Name);
    if (names.isEmpty()) return std::nullopt;
    return shelf.absoluteFilePath(names.front()).toStdString();
}

Result<CopiedPhotos> copy_photos(const std::string& from, const std::string& to) {
    CopiedPhotos done;
    const QDir source(QString::fromStdString(from));
    const QDir target(QString::fromStdString(to));
    for (const QString& shelf : source.entryList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name)) {
        const QDir kept(source.absoluteFilePath(shelf));
        bool there_before = false;
        for (const QString& name : kept.entryList(QDir::Files, QDir::Name)) {
            if (!is_kept_name(name) || name.left(2) != shelf) continue;
            if (path_in(to, name.section(u'.', 0, 0).toStdString())) {
                there_before = true;
                continue;
            }
            const QString path = kept.absoluteFilePath(name);
            const auto copied = copy_photo(path, target);
            if (!copied) return copied.error();
            if (*copied) {
                ++done.copied;
            } else {
                done.altered.push_back(path.toStdString());
            }
        }
        if (!there_before) continue;
        // Who copied them may have failed before their names were safe.
        const auto synced = sync_folder(target.absoluteFilePath(shelf).toStdString());
        if (!synced) return synced.error();
    }
    return done;
}

Result<std::string> digest_of_file(const std::string& path) {
    const auto read = read_through(QString::fromStdString(path),
                                   [](std::string_view) { return Result<Done>(Done{}); });
    if (!read) return read.error();
    return read->first;
}

} // namespace rodway
