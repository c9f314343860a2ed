#include "db/connection.h"

#include <QUrl>
#include <QUuid>
#include <utility>

namespace rodway {

std::int64_t Row::integer(int column) const {
    return query_.value(column).toLongLong();
}

std::optional<std::int64_t> Row::optional_integer(int column) const {
    if (query_.isNull(column)) return std::nullopt;
    return integer(column);
}

std::string Row::text(int column) const {
    return query_.value(column).toString().toStdString();
}

std::optional<std::string> Row::optional_text(int column) const {
    if (query_.isNull(column)) return std::nullopt;
    return text(column);
}

QByteArray Row::bytes(int column) const {
    return query_.value(column).toByteArray();
}

Connection::Connection(QString name, std::string path)
    : name_(std::move(name)), path_(std::move(path)) {}

Connection::Connection(Connection&& other) noexcept
    : name_(std::exchange(other.name_, QString())), path_(std::move(other.path_)) {}

Connection::~Connection() {
    if (!name_.isEmpty()) QSqlDatabase::removeDatabase(name_);
}

Result<Connection> Connection::open_existing(const std::string& path,
                                             std::chrono::milliseconds patience) {
    return open(path, path, "rw", patience);
}

Result<Connection> Connection::create_new(const std::string& path) {
    return open(path, path, "rwc", std::chrono::milliseconds(0));
}

Result<Connection> Connection::open_alone(const std::string& path,
                                          std::chrono::milliseconds patience) {
    // A connection of its own, with the lock before its first page is read: of pages read from a
    // log, SQLite doesn't see that another program changed them before the log was given up, since
    // an act in the log needn't move the counter by which a journal's readers tell.
    auto opened = open(path, path, "rw", patience);
    if (!opened) return opened;
    Connection connection = std::move(opened).value();
    // In this order: the lock that the change of journal needs is then never let go.
    for (const char* pragma : {"PRAGMA locking_mode = EXCLUSIVE", "PRAGMA journal_mode = DELETE"}) {
        const auto set = connection.single(QLatin1String(pragma));
        if (!set) return set.error();
    }
    auto begun = connection.run(QStringLiteral("BEGIN EXCLUSIVE"));
    if (begun) begun = connection.run(QStringLiteral("COMMIT"));
    if (!begun) return begun.error();
    const auto mode = connection.single(QStringLiteral("PRAGMA journal_mode"));
    if (!mode) return mode.error();
    if (mode->toString() == QStringLiteral("delete")) return connection;
    return Error{ErrorCode::locked_file, path, {}, {}, {}, {}};
}

Result<Connection> Connection::open_to_look(const std::string& path, const std::string& told_as,
                                            bool nobody_writes,
                                            std::chrono::milliseconds patience) {
    return open(path, told_as, nobody_writes ? "ro&immutable=1" : "ro", patience);
}

Result<Connection> Connection::open(const std::string& path, const std::string& told_as,
                                    const char* mode, std::chrono::milliseconds patience) {
    Connection connection(QUuid::createUuid().toString(), told_as);
    QSqlDatabase database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), connection.name_);
    // A URI carries the mode: by a plain name Qt's driver would create the file it does not find.
    const QUrl url = QUrl::fromLocalFile(QString::fromStdString(path));
    database.setDatabaseName(QString::fromLatin1(url.toEncoded()) + QStringLiteral("?mode=") +
                             QLatin1String(mode));
    database.setConnectOptions(QStringLiteral("QSQLITE_OPEN_URI;QSQLITE_BUSY_TIMEOUT=%1")
                                   .arg(static_cast<qlonglong>(patience.count())));
    if (!database.open()) return connection.error_of(database.lastError());
    return connection;
}

Error Connection::error_of(const QSqlError& error) const {
    // SQLite's primary result codes, https://sqlite.org/rescode.html
    constexpr int primary_mask = 0xff;
    constexpr int io_error = 10;
    constexpr int full = 13;
    constexpr int read_only = 8;
    const int primary = error.nativeErrorCode().toInt() & primary_mask;
    ErrorCode code = ErrorCode::damaged_file;
    switch (primary) {
        case 5: // SQLITE_BUSY
        case 6: // SQLITE_LOCKED
            code = ErrorCode::locked_file;
            break;
        case 3: // SQLITE_PERM
        case read_only:
        case io_error:
        case full:
            code = ErrorCode::cannot_write;
            break;
        case 14: // SQLITE_CANTOPEN
            code = ErrorCode::cannot_read;
            break;
        case 19: // SQLITE_CONSTRAINT
            code = ErrorCode::wrong_type;
            break;
        case 26: // SQLITE_NOTADB
            code = ErrorCode::foreign_file;
            break;
        default:
            break;
    }
    std::string said = error.databaseText().toStdString();
    // What a person can do something about has a token, as in `DurableFile`.
    if (primary == full) said = "disk_full";
    if (primary == io_error) said = "disk_error";
    if (primary == read_only) said = "read_only";
    return Error{code, path_, std::move(said), {}, {}, {}};
}

Result<Done> Connection::each(const QString& sql, const QVariantList& values,
                              const std::function<void(const Row&)>& take) {
    QSqlQuery query(QSqlDatabase::database(name_, false));
    query.setForwardOnly(true);
    if (!query.prepare(sql)) return error_of(query.lastError());
    for (const QVariant& value : values) query.addBindValue(value);
    if (!query.exec()) return error_of(query.lastError());
    const Row row(query);
    while (query.next()) take(row);
    if (query.lastError().isValid()) return error_of(query.lastError());
    return Done{};
}

Result<Done> Connection::run(const QString& sql, const QVariantList& values) {
    return each(sql, values, [](const Row&) {});
}

Result<QVariant> Connection::single(const QString& sql, const QVariantList& values) {
    QSqlQuery query(QSqlDatabase::database(name_, false));
    query.setForwardOnly(true);
    if (!query.prepare(sql)) return error_of(query.lastError());
    for (const QVariant& value : values) query.addBindValue(value);
    if (!query.exec()) return error_of(query.lastError());
    if (query.next()) return query.value(0);
    if (query.lastError().isValid()) return error_of(query.lastError());
    return QVariant();
}

Result<Transaction> Transaction::begin(Connection& connection, Kind kind) {
    const QString sql =
        kind == Kind::write ? QStringLiteral("BEGIN IMMEDIATE") : QStringLiteral("BEGIN");
    if (const auto begun = connection.run(sql); !begun) return begun.error();
    return Transaction(connection);
}

Transaction::Transaction(Transaction&& other) noexcept
    : connection_(std::exchange(other.connection_, nullptr)) {}

Transaction::~Transaction() {
    // A failed rollback leaves nothing to do: SQLite has then already rolled back by itself.
    if (connection_ != nullptr) static_cast<void>(connection_->run(QStringLiteral("ROLLBACK")));
}

Result<Done> Transaction::commit() {
    RODWAY_ASSERT(connection_ != nullptr);
    const auto committed = connection_->run(QStringLiteral("COMMIT"));
    if (committed) connection_ = nullptr;
    return committed;
}

Result<QString> storable_text(const std::string& text) {
    QString converted = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
    // SQLite takes a leading U+FEFF or U+FFFE off a text as a byte order mark.
    if (converted.contains(QChar(u'\0')) || converted.startsWith(QChar(0xfeff)) ||
        converted.startsWith(QChar(0xfffe)) || converted.toStdString() != text) {
        return Error{ErrorCode::not_utf8, {}, text, {}, {}, {}};
    }
    return converted;
}

QVariant to_variant(const std::optional<std::string>& text) {
    if (!text) return QVariant();
    return QString::fromStdString(*text);
}

} // namespace rodway
