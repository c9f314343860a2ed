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

QDir photos_folder(const ShopFile& shop) {
    const QFileInfo file(QString::fromStdString(shop.path()));
    return QDir(file.absoluteDir().filePath(file.completeBaseName() + QStringLiteral(".photos")));
}

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

Error file_error(ErrorCode code, const QString& path) {
    return Error{code, path.toStdString(), {}, {}, {}, {}};
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

/// Makes `name` in `parent`, on the disk when it returns.
Result<Done> make_folder(const QDir& parent, const QString& name) {
    const auto is_there = [&] { return QFileInfo(parent.filePath(name)).isDir(); };
    // Another program may have made it meanwhile, which is as good.
    if (!is_there() && !parent.mkdir(name) && !is_there()) {
        return file_error(ErrorCode::cannot_write, parent.filePath(name));
    }
    // One that was there too: who made it may have failed before its name was safe.
    return sync_folder(parent.absolutePath().toStdString());
}

} // namespace

Result<StoredFile> keep(const ShopFile& shop, const std::string& source) {
    const QString path = QString::fromStdString(source);
    // Read before a folder is made: a refused file leaves nothing behind.
    const QFileInfo info(path);
    if (!info.isFile() || !info.isReadable()) return file_error(ErrorCode::cannot_read, path);
    if (info.size() == 0) return file_error(ErrorCode::empty_file, path);

    const QDir folder = photos_folder(shop);
    const QDir shop_folder = QFileInfo(folder.absolutePath()).absoluteDir();
    if (const auto made = make_folder(shop_folder, folder.dirName()); !made) return made.error();
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
    if (const auto made = make_folder(folder, shelf); !made) return made.error();
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
    const QDir shelf(photos_folder(shop).filePath(QString::fromStdString(digest.substr(0, 2))));
    const QString pattern = QString::fromStdString(digest) + QStringLiteral(".*");
    const QStringList names = shelf.entryList({pattern}, QDir::Files, QDir::Name);
    if (names.isEmpty()) return std::nullopt;
    return shelf.absoluteFilePath(names.front()).toStdString();
}

Result<std::string> digest_of_file(const std::string& path) {
    const auto read = read_through(QString::fromStdString(path),
                                   [](std::string_view) { return Result<Done>(Done{}); });
    if (!read) return read.error();
    return read->first;
}

} // namespace rodway
