#include "db/looking.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QStorageInfo>
#include <array>
#include <utility>

#include "db/shop_file.h"

namespace rodway {
namespace {

Error file_error(ErrorCode code, const QString& path, std::string value = {}) {
    return Error{code, path.toStdString(), std::move(value), {}, {}, {}};
}

LookOnly::Reason reason_at(const QString& path) {
    const QFileInfo file(path);
    if (QStorageInfo(file.absolutePath()).isReadOnly()) return LookOnly::Reason::disk;
    return file.isWritable() ? LookOnly::Reason::folder : LookOnly::Reason::file;
}

bool keeps_log(const QString& path) {
    // Offset 19 of the header: 2 with a write-ahead log, https://sqlite.org/fileformat2.html
    constexpr qsizetype read_version_at = 19;
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) return false;
    const QByteArray header = file.read(read_version_at + 1);
    return header.size() > read_version_at && header[read_version_at] == 2;
}

bool has_content(const QString& path) {
    return QFileInfo(path).size() > 0;
}

/// How the file can be read.
enum class Way { with_writers, as_it_stands, copy };

Way way_to_read(const QString& path) {
    if (has_content(path + QStringLiteral("-journal")))
        return Way::copy; // half an act to take back
    if (!keeps_log(path)) return Way::with_writers;
    const bool log = QFileInfo::exists(path + QStringLiteral("-wal"));
    if (log && QFileInfo::exists(path + QStringLiteral("-shm"))) return Way::with_writers;
    const QStorageInfo disk(QFileInfo(path).absolutePath());
    const bool nobody_writes =
        disk.isReadOnly() && !is_network_file_system(disk.fileSystemType().toStdString());
    const bool at_rest = !has_content(path + QStringLiteral("-wal"));
    return nobody_writes && at_rest ? Way::as_it_stands : Way::copy;
}

constexpr std::array<const char*, 3> parts_of_a_shop{"", "-wal", "-journal"};

/// What would be otherwise if somebody wrote.
QStringList state_of(const QString& path) {
    QStringList state;
    for (const char* suffix : parts_of_a_shop) {
        const QFileInfo part(path + QLatin1String(suffix));
        state << (part.exists() ? QStringLiteral("%1 %2")
                                      .arg(part.size())
                                      .arg(part.lastModified().toMSecsSinceEpoch())
                                : QString());
    }
    return state;
}

Result<Done> copy_parts(const QString& path, const QString& to) {
    for (const char* suffix : parts_of_a_shop) {
        const QString from = path + QLatin1String(suffix);
        if (!QFileInfo::exists(from)) continue;
        const QString target = to + QLatin1String(suffix);
        QFile::remove(target);
        if (!QFile::copy(from, target)) {
            if (!QFileInfo(from).isReadable()) return file_error(ErrorCode::cannot_read, from);
            return file_error(ErrorCode::cannot_write, QFileInfo(to).absolutePath(), "disk_full");
        }
        // Permissions come with a copy.
        QFile::setPermissions(target, QFile::ReadOwner | QFile::WriteOwner);
    }
    return Done{};
}

/// A copy that is of one moment, in a folder that nobody else may read.
Result<std::unique_ptr<QTemporaryDir>> copied(const QString& path) {
    auto folder = std::make_unique<QTemporaryDir>();
    if (!folder->isValid()) {
        return file_error(ErrorCode::cannot_write, QDir::tempPath(), "no_permission");
    }
    constexpr int tries = 3;
    for (int tried = 0; tried < tries; ++tried) {
        const QStringList before = state_of(path);
        const auto made = copy_parts(path, folder->filePath(QStringLiteral("copy")));
        if (!made) return made.error();
        if (state_of(path) == before) return folder;
    }
    return file_error(ErrorCode::locked_file, path);
}

Result<Done> bring_to_rest(const std::string& copy, std::chrono::milliseconds patience,
                           const std::function<Result<Done>(Connection&)>& settle) {
    auto opened = Connection::open_existing(copy, patience);
    if (!opened) return opened.error();
    Connection connection = std::move(opened).value();
    if (const auto settled = settle(connection); !settled) return settled;
    const auto mode = connection.single(QStringLiteral("PRAGMA journal_mode = DELETE"));
    if (!mode) return mode.error();
    return Done{};
}

/// Errors are told of the file that the user knows.
Error told_of(const QString& path, const QString& copy, Error error) {
    if (error.field == copy.toStdString()) error.field = path.toStdString();
    return error;
}

Result<Looking> look_at_copy(const QString& path, LookOnly::Reason reason,
                             std::chrono::milliseconds patience,
                             const std::function<Result<Done>(Connection&)>& settle) {
    auto made = copied(path);
    if (!made) return made.error();
    Looking looking{{reason, false}, std::move(made).value(), {}};
    const QString copy = looking.folder->filePath(QStringLiteral("copy"));
    if (const auto rested = bring_to_rest(copy.toStdString(), patience, settle); !rested) {
        return told_of(path, copy, rested.error());
    }
    auto opened = Connection::open_to_look(copy.toStdString(), path.toStdString(), true, patience);
    if (!opened) return opened.error();
    looking.connection = std::make_unique<Connection>(std::move(opened).value());
    return looking;
}

} // namespace

bool may_be_written(const QString& path) {
    const QFileInfo file(path);
    return file.isWritable() && QFileInfo(file.absolutePath()).isWritable();
}

Result<Looking> open_looking(const QString& path, std::chrono::milliseconds patience,
                             const std::function<Result<bool>(Connection&)>& old,
                             const std::function<Result<Done>(Connection&)>& settle) {
    const LookOnly::Reason reason = reason_at(path);
    const Way way = way_to_read(path);
    if (way == Way::copy) return look_at_copy(path, reason, patience, settle);
    auto opened = Connection::open_to_look(path.toStdString(), path.toStdString(),
                                           way == Way::as_it_stands, patience);
    if (!opened) return opened.error();
    Looking looking{{reason, way == Way::with_writers},
                    nullptr,
                    std::make_unique<Connection>(std::move(opened).value())};
    const auto is_old = old(*looking.connection);
    if (!is_old) return is_old.error();
    if (!*is_old) return looking;
    looking.connection.reset();
    return look_at_copy(path, reason, patience, settle);
}

} // namespace rodway
