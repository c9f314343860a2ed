#include "db/whole_copy.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <chrono>
#include <utility>

#include "db/attachments.h"
#include "db/durable_file.h"
#include "db/migrations.h"
#include "db/temporary_files.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;

Error write_failure(const std::string& folder, std::string token) {
    return Error{ErrorCode::cannot_write, folder, std::move(token), {}, {}, {}};
}

/// What SQLite answers when the copy can't be written speaks of the file that is read.
Error copy_failure(const Error& error, const std::string& folder) {
    if (error.code == ErrorCode::locked_file) return error;
    const QFileInfo info(QString::fromStdString(folder));
    if (!info.isDir()) return write_failure(folder, "no_folder");
    if (!info.isWritable()) return write_failure(folder, "no_permission");
    if (error.value.find("full") != std::string::npos) return write_failure(folder, "disk_full");
    if (error.code == ErrorCode::damaged_file || error.code == ErrorCode::foreign_file) {
        return error;
    }
    return write_failure(folder, error.value);
}

Result<std::string> origin_of(Connection& connection) {
    QCryptographicHash hash(QCryptographicHash::Sha256);
    bool any = false;
    const auto take = [&](const Row& row) {
        any = true;
        for (int column = 0; column < 7; ++column) {
            const auto text = row.optional_text(column);
            // A length before each text: no two rows of texts run into the same bytes.
            hash.addData(text ? QByteArray::number(static_cast<qlonglong>(text->size())) + ' '
                              : QByteArray("- "));
            if (text) hash.addData(QByteArray::fromStdString(*text));
        }
    };
    const auto rows = connection.each(
        QStringLiteral("SELECT a.who, a.when_utc, e.record_kind, e.record_id, e.field, e.before,"
                       " e.after FROM acts a JOIN edits e ON e.act = a.number"
                       " WHERE a.number = (SELECT min(number) FROM acts) ORDER BY e.ordinal"),
        {}, take);
    if (!rows) return rows.error();
    return any ? hash.result().toHex().toStdString() : std::string();
}

} // namespace

Result<ShopGlance> glance_at(Connection& connection) {
    const auto application = connection.single(QStringLiteral("PRAGMA application_id"));
    if (!application) return application.error();
    if (application->toInt() != shop_application_id) {
        return Error{ErrorCode::foreign_file, connection.path(), {}, {}, {}, {}};
    }
    const auto version = schema_version(connection);
    if (!version) return version.error();
    const int newest = own_migrations().back().version;
    if (*version > newest) {
        return Error{ErrorCode::newer_version,
                     connection.path(),
                     std::to_string(*version),
                     std::to_string(newest),
                     {},
                     {}};
    }
    ShopGlance seen;
    const auto act = connection.each(
        QStringLiteral("SELECT number, when_utc FROM acts ORDER BY number DESC LIMIT 1"), {},
        [&](const Row& row) {
            seen.history = {row.integer(0), row.text(1)};
        });
    if (!act) return act.error();
    auto origin = origin_of(connection);
    if (!origin) return origin.error();
    seen.origin = std::move(origin).value();
    return seen;
}

Result<std::vector<std::string>> missing_photos(Connection& connection,
                                                const std::string& photos_folder) {
    std::vector<std::string> missing;
    const auto rows =
        connection.each(QStringLiteral("SELECT DISTINCT digest FROM photos ORDER BY digest"), {},
                        [&](const Row& row) {
                            if (!path_in(photos_folder, row.text(0)))
                                missing.push_back(row.text(0));
                        });
    if (!rows) return rows.error();
    return missing;
}

Result<Done> refuse_unsound(Connection& connection, bool thorough) {
    const auto damaged = [&](std::string what) {
        return Error{ErrorCode::damaged_file, connection.path(), std::move(what), {}, {}, {}};
    };
    const auto page_size = connection.single(QStringLiteral("PRAGMA page_size"));
    if (!page_size) return page_size.error();
    // SQLite takes a last page that is cut off for a whole one that ends in zeros.
    const QFileInfo file(QString::fromStdString(connection.path()));
    if (page_size->toLongLong() <= 0 || file.size() % page_size->toLongLong() != 0) {
        return damaged("cut_off");
    }
    const auto pages = connection.single(thorough ? QStringLiteral("PRAGMA integrity_check(1)")
                                                  : QStringLiteral("PRAGMA quick_check(1)"));
    if (!pages) return pages.error();
    if (pages->toString() != QStringLiteral("ok")) return damaged(pages->toString().toStdString());
    if (!thorough) return Done{};
    const auto reference = connection.single(QStringLiteral("PRAGMA foreign_key_check"));
    if (!reference) return reference.error();
    if (reference->isValid()) return damaged(reference->toString().toStdString());
    return Done{};
}

struct WholeCopy::State {
    QString path;
    ShopGlance content;

    State() = default;
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() {
        if (path.isEmpty()) return;
        for (const char* suffix : {"", "-journal", "-wal", "-shm"}) {
            QFile::remove(path + QLatin1String(suffix));
        }
    }
};

WholeCopy::WholeCopy(std::unique_ptr<State> state) : state_(std::move(state)) {}
WholeCopy::WholeCopy(WholeCopy&& other) noexcept = default;
WholeCopy::~WholeCopy() = default;

const ShopGlance& WholeCopy::content() const {
    return state_->content;
}

Result<WholeCopy> WholeCopy::make(Connection& source, const std::string& folder) {
    const QDir target(QString::fromStdString(folder));
    remove_stale_temporaries(folder);
    const auto before = glance_at(source);
    if (!before) return before.error();
    auto state = std::make_unique<State>();
    state->path = QString::fromStdString(temporary_path(target.absolutePath().toStdString()));
    const std::string path = state->path.toStdString();
    // The source is read in one transaction of SQLite's own: the copy is whole as of one act.
    if (const auto made = source.run(QStringLiteral("VACUUM INTO ?"), {state->path}); !made) {
        return copy_failure(made.error(), folder);
    }
    {
        auto opened = Connection::open_existing(path, 0ms);
        if (!opened) return copy_failure(opened.error(), folder);
        Connection copy = std::move(opened).value();
        if (const auto sound = refuse_unsound(copy, false); !sound) return sound.error();
        auto content = glance_at(copy);
        if (!content) return content.error();
        state->content = std::move(content).value();
    }
    const auto after = glance_at(source);
    if (!after) return after.error();
    const std::int64_t act = state->content.history.act;
    if (act < before->history.act || act > after->history.act) {
        return Error{ErrorCode::damaged_file, path, std::to_string(act), {}, {}, {}};
    }
    if (const auto synced = sync_file(path); !synced) {
        return write_failure(folder, synced.error().value);
    }
    return WholeCopy(std::move(state));
}

Result<std::string> WholeCopy::keep_as(const BackupName& name) {
    const std::string folder = QFileInfo(state_->path).absolutePath().toStdString();
    for (;;) {
        const QString path = QString::fromStdString(free_backup_path(folder, name));
        const auto renamed = rename_to_free_name(state_->path.toStdString(), path.toStdString());
        if (renamed || !QFileInfo::exists(state_->path)) state_->path.clear();
        if (renamed) return path.toStdString();
        if (renamed.error().value != "exists") return renamed.error();
    }
}

Result<Done> WholeCopy::replace(const std::string& path) {
    const QString name = QString::fromStdString(path);
    // Who may read and write the shop stays as it was, as far as the system lets us.
    if (QFileInfo::exists(name)) QFile::setPermissions(state_->path, QFile::permissions(name));
    const auto replaced = replace_durably(state_->path.toStdString(), path);
    if (replaced || !QFileInfo::exists(state_->path)) state_->path.clear();
    return replaced;
}

} // namespace rodway
