#include "db/migrations.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include "db/durable_file.h"
#include "db/history_seal.h"
#include "db/search_index.h"
#include "db/sql_script.h"
#include "db/temporary_files.h"

namespace rodway {
namespace {

QString free_backup_path(const std::string& shop_path, int version) {
    const QFileInfo shop(QString::fromStdString(shop_path));
    const QString stem = QStringLiteral("%1.backup-v%2-%3")
                             .arg(shop.completeBaseName())
                             .arg(version)
                             .arg(QDateTime::currentDateTimeUtc().toString(Qt::ISODate).left(10));
    const QString suffix =
        shop.suffix().isEmpty() ? QString() : QStringLiteral(".") + shop.suffix();
    QString path = shop.absoluteDir().filePath(stem + suffix);
    for (int again = 2; QFileInfo::exists(path); ++again) {
        path = shop.absoluteDir().filePath(stem + QStringLiteral("-%1").arg(again) + suffix);
    }
    return path;
}

Result<std::string> back_up(Connection& connection, int version) {
    const QString path = free_backup_path(connection.path(), version);
    const QDir folder = QFileInfo(path).absoluteDir();
    // Under its name it stands whole or not at all: half a copy must not be taken for a backup.
    const QString temporary =
        QString::fromStdString(temporary_path(folder.absolutePath().toStdString()));
    auto made = connection.run(QStringLiteral("VACUUM INTO ?"), {temporary});
    // SQLite doesn't wait for the disk here, but what follows must not run before the copy is safe.
    if (made) made = sync_file(temporary.toStdString());
    if (made) made = rename_to_free_name(temporary.toStdString(), path.toStdString());
    if (!made) {
        QFile::remove(temporary);
        return made.error();
    }
    return path.toStdString();
}

Result<Done> run_migration(Connection& connection, const Migration& migration) {
    auto begun = Transaction::begin(connection, Transaction::Kind::write);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    const auto version = schema_version(connection);
    if (!version) return version.error();
    if (*version >= migration.version) return Done{}; // another program was quicker
    for (const std::string& statement : split_statements(migration.sql)) {
        const auto ran = connection.run(QString::fromStdString(statement));
        if (!ran) return ran;
    }
    if (migration.then) {
        const auto ran = migration.then(connection);
        if (!ran) return ran;
    }
    for (const QString& sql :
         {QStringLiteral("PRAGMA application_id = %1").arg(shop_application_id),
          QStringLiteral("PRAGMA user_version = %1").arg(migration.version)}) {
        const auto ran = connection.run(sql);
        if (!ran) return ran;
    }
    return transaction.commit();
}

} // namespace

std::vector<Migration> own_migrations() {
    std::vector<Migration> migrations;
    const QDir folder(QStringLiteral(":/rodway/migrations"));
    for (const QString& name :
         folder.entryList({QStringLiteral("*.sql")}, QDir::Files, QDir::Name)) {
        QFile file(folder.filePath(name));
        const bool opened = file.open(QIODevice::ReadOnly);
        RODWAY_ASSERT(opened);
        const int version = name.section(QLatin1Char('_'), 0, 0).toInt();
        migrations.push_back(Migration{version, file.readAll().toStdString()});
        RODWAY_ASSERT(version == static_cast<int>(migrations.size()));
    }
    constexpr std::size_t sealing = 2;   // the version from which every act is sealed
    constexpr std::size_t searching = 3; // the version from which words are searched
    RODWAY_ASSERT(migrations.size() >= searching);
    migrations[sealing - 1].then = seal_old_history;
    migrations[searching - 1].then = remake_search;
    return migrations;
}

Result<int> schema_version(Connection& connection) {
    const auto version = connection.single(QStringLiteral("PRAGMA user_version"));
    if (!version) return version.error();
    return version->toInt();
}

Result<std::optional<std::string>> migrate(Connection& connection,
                                           const std::vector<Migration>& migrations) {
    const auto found = schema_version(connection);
    if (!found) return found.error();
    const int newest = migrations.back().version;
    if (*found > newest) {
        return Error{ErrorCode::newer_version,
                     connection.path(),
                     std::to_string(*found),
                     std::to_string(newest),
                     {},
                     {}};
    }
    std::optional<std::string> backup;
    if (*found > 0 && *found < newest) {
        auto made = back_up(connection, *found);
        if (!made) return made.error();
        backup = std::move(made).value();
    }
    for (const Migration& migration : migrations) {
        if (migration.version <= *found) continue;
        const auto ran = run_migration(connection, migration);
        if (!ran) return ran.error();
    }
    return backup;
}

} // namespace rodway
