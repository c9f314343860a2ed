#include "db/rescue_copy.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>
#include <algorithm>
#include <array>
#include <chrono>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "db/migrations.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;

// Offsets in the header of a database, https://sqlite.org/fileformat2.html
constexpr qsizetype header_bytes = 100;
constexpr qsizetype page_size_at = 16;
constexpr qsizetype write_version_at = 18;
constexpr qsizetype read_version_at = 19;
constexpr qsizetype reserved_at = 20;
constexpr qsizetype page_count_at = 28;
constexpr qsizetype user_version_at = 60;
constexpr qsizetype application_id_at = 68;
constexpr int usual_page_size = 4096;

Error file_error(ErrorCode code, const QString& path, std::string value = {},
                 std::string expected = {}) {
    return Error{code, path.toStdString(), std::move(value), std::move(expected), {}, {}};
}

std::uint32_t number_at(const QByteArray& bytes, qsizetype at, int length) {
    std::uint32_t number = 0;
    for (int i = 0; i < length; ++i) {
        number = number << 8U | static_cast<unsigned char>(bytes[at + i]);
    }
    return number;
}

void put_number(QByteArray& bytes, qsizetype at, std::uint32_t number) {
    for (int i = 0; i < 4; ++i) {
        bytes[at + i] = static_cast<char>(number >> (24U - 8U * static_cast<unsigned>(i)) & 0xffU);
    }
}

/// What the header says, as far as it can be believed.
struct HeaderGlance {
    bool sound = false;
    int page_size = usual_page_size;
    int version = 0;
    bool ours = false;
};

HeaderGlance glance_at_header(const QByteArray& header) {
    HeaderGlance seen;
    if (header.size() < header_bytes) return seen;
    seen.version = static_cast<int>(number_at(header, user_version_at, 4));
    seen.ours = number_at(header, application_id_at, 4) == shop_application_id;
    const std::uint32_t stated = number_at(header, page_size_at, 2);
    const std::uint32_t page_size = stated == 1 ? 65536 : stated;
    const bool power_of_two = page_size >= 512 && (page_size & (page_size - 1)) == 0;
    const bool journal_known = (header[write_version_at] == 1 || header[write_version_at] == 2) &&
                               header[read_version_at] == header[write_version_at];
    // The three numbers behind the reserved space are the same in every database.
    seen.sound = header.startsWith(QByteArray("SQLite format 3\0", 16)) && power_of_two &&
                 journal_known && header.mid(reserved_at, 4) == QByteArray("\0\x40\x20\x20", 4);
    if (seen.sound) seen.page_size = static_cast<int>(page_size);
    return seen;
}

/// Copies what the disk gives; what it doesn't give is zeros. Whole pages.
Result<Done> copy_readable(const QString& from, const QString& to) {
    QFile source(from);
    if (!QFileInfo(from).isFile() || !source.open(QIODevice::ReadOnly | QIODevice::Unbuffered)) {
        return file_error(ErrorCode::cannot_read, from);
    }
    QFile target(to);
    if (!target.open(QIODevice::WriteOnly)) return file_error(ErrorCode::cannot_write, to);
    const qint64 size = source.size();
    for (qint64 at = 0; at < size; at += usual_page_size) {
        QByteArray piece;
        if (source.seek(at)) piece = source.read(std::min<qint64>(usual_page_size, size - at));
        piece.append(usual_page_size - piece.size(), '\0');
        if (target.write(piece) != piece.size()) {
            return file_error(ErrorCode::cannot_write, to, "disk_full");
        }
    }
    if (!target.flush()) return file_error(ErrorCode::cannot_write, to, "disk_full");
    return Done{};
}

Result<Done> overwrite(const QString& path, const QByteArray& bytes) {
    QFile file(path);
    if (!file.open(QIODevice::ReadWrite) || file.write(bytes) != bytes.size() || !file.flush()) {
        return file_error(ErrorCode::cannot_write, path);
    }
    return Done{};
}

/// A table of the version, as a new file has it.
struct PlainTable {
    QString name;
    std::int64_t root = 0;
    QString sql;
    QStringList columns;
    QStringList types;
    QStringList key;
};

Result<std::vector<PlainTable>> tables_of_version(const QString& scratch, int version) {
    auto created = Connection::create_new(scratch.toStdString());
    if (!created) return created.error();
    Connection connection = std::move(created).value();
    std::vector<Migration> migrations = own_migrations();
    migrations.resize(static_cast<std::size_t>(version));
    if (const auto made = migrate(connection, migrations); !made) return made.error();
    std::vector<PlainTable> tables;
    auto read = connection.each(
        QStringLiteral("SELECT name, rootpage, sql FROM sqlite_schema WHERE type = 'table'"), {},
        [&tables](const Row& row) {
            PlainTable table;
            table.name = QString::fromStdString(row.text(0));
            table.root = row.integer(1);
            table.sql = QString::fromStdString(row.text(2));
            tables.push_back(std::move(table));
        });
    for (PlainTable& table : tables) {
        if (!read) break;
        read = connection.each(QStringLiteral("PRAGMA table_info(%1)").arg(table.name), {},
                               [&table](const Row& row) {
                                   table.columns << QString::fromStdString(row.text(1));
                                   table.types << QString::fromStdString(row.text(2));
                                   if (row.integer(5) > 0) table.key << table.columns.back();
                               });
    }
    if (!read) return read.error();
    return tables;
}

/// Plays log and journal into the copy. What can't be played is left out.
void settle(const QString& path) {
    auto opened = Connection::open_existing(path.toStdString(), 0ms);
    if (!opened) return;
    Connection connection = std::move(opened).value();
    static_cast<void>(connection.single(QStringLiteral("SELECT count(*) FROM sqlite_schema")));
    static_cast<void>(connection.run(QStringLiteral("PRAGMA wal_checkpoint(TRUNCATE)")));
    static_cast<void>(connection.run(QStringLiteral("PRAGMA journal_mode = delete")));
}

/// What is left of the schema.
struct FoundSchema {
    std::map<QString, std::int64_t> roots;
    int known = 0;   ///< tables of ours, by any of their names
    int unlike = 0;  ///< tables of another making
    int unmoved = 0; ///< of ours, those that stand where a new file has them
};

FoundSchema read_schema(const QString& path, const std::vector<PlainTable>& wanted) {
    FoundSchema found;
    auto opened = Connection::open_existing(path.toStdString(), 0ms);
    if (!opened) return found;
    Connection connection = std::move(opened).value();
    std::set<std::int64_t> seen;
    const auto take = [&](const Row& row) {
        if (row.text(1) != "table" || !seen.insert(row.integer(0)).second) return;
        const QString sql = QString::fromStdString(row.text(5));
        // A damaged row is known by what is left of it.
        const auto same = [&](const PlainTable& table) {
            const std::string name = table.name.toStdString();
            return (row.text(2) == name) + (row.text(3) == name) + (sql == table.sql) >= 1;
        };
        const auto table = std::find_if(wanted.begin(), wanted.end(), same);
        if (table == wanted.end() || sql != table->sql) ++found.unlike;
        if (table == wanted.end()) return;
        ++found.known;
        found.roots.emplace(table->name, row.integer(4));
        if (table->root == row.integer(4)) ++found.unmoved;
    };
    // Without this SQLite reads nothing at all from a file whose schema has one bad row; and the
    // first statement after it still fails.
    static_cast<void>(connection.run(QStringLiteral("PRAGMA writable_schema = ON")));
    static_cast<void>(connection.run(QStringLiteral("SELECT 1 FROM sqlite_schema")));
    const QString sql = QStringLiteral(
        "SELECT rowid, type, name, tbl_name, rootpage, sql FROM sqlite_schema ORDER BY rowid");
    if (!connection.each(sql, {}, take)) {
        static_cast<void>(connection.each(sql + QStringLiteral(" DESC"), {}, take));
    }
    return found;
}

/// Where each table begins. Files that never were compacted have all tables where a new file has
/// them: if nearly all that is left says so, so does what is lost.
std::map<QString, std::int64_t> believed_roots(const FoundSchema& found,
                                               const std::vector<PlainTable>& wanted,
                                               std::int64_t pages) {
    constexpr int strays = 2;
    const bool unmoved = found.known - found.unmoved <= strays && found.unmoved >= found.known / 2;
    std::map<QString, std::int64_t> roots;
    for (const PlainTable& table : wanted) {
        const auto at = found.roots.find(table.name);
        if (!unmoved && at == found.roots.end()) continue;
        const std::int64_t root = unmoved ? table.root : at->second;
        if (root >= 2 && root <= pages) roots[table.name] = root;
    }
    return roots;
}

QString plain_sql(const PlainTable& table, const QString& name) {
    QStringList columns;
    for (qsizetype i = 0; i < table.columns.size(); ++i) {
        const bool is_row = table.key.size() == 1 && table.key.front() == table.columns[i];
        columns << QStringLiteral("\"%1\" %2%3")
                       .arg(table.columns[i], table.types[i],
                            is_row ? QStringLiteral(" PRIMARY KEY") : QString());
    }
    if (table.key.size() < 2) {
        return QStringLiteral("CREATE TABLE \"%1\" (%2)")
            .arg(name, columns.join(QStringLiteral(", ")));
    }
    return QStringLiteral("CREATE TABLE \"%1\" (%2, PRIMARY KEY (\"%3\")) WITHOUT ROWID")
        .arg(name, columns.join(QStringLiteral(", ")), table.key.join(QStringLiteral("\", \"")));
}

/// The first page of a database of so many pages without any table.
Result<QByteArray> bare_first_page(const QString& scratch, int page_size, std::uint32_t pages) {
    {
        auto created = Connection::create_new(scratch.toStdString());
        if (!created) return created.error();
        Connection connection = std::move(created).value();
        for (const QString& sql : {QStringLiteral("PRAGMA page_size = %1").arg(page_size),
                                   QStringLiteral("PRAGMA user_version = 1")}) {
            if (const auto set = connection.run(sql); !set) return set.error();
        }
    }
    QFile file(scratch);
    if (!file.open(QIODevice::ReadOnly)) return file_error(ErrorCode::cannot_read, scratch);
    QByteArray page = file.read(page_size);
    if (page.size() != page_size) return file_error(ErrorCode::cannot_write, scratch);
    put_number(page, page_count_at, pages);
    return page;
}

} // namespace

struct RescueCopy::State {
    QTemporaryDir folder;
    int version = 0;
    std::vector<PlainTable> tables;
    std::optional<Connection> connection; // closed before the folder goes

    explicit State(const QString& above) : folder(above) {}
    [[nodiscard]] QString file(const char* name) const {
        return folder.filePath(QLatin1String(name));
    }
    Result<Done> copy(const QString& damaged);
    Result<Done> find_version(const QString& damaged, const HeaderGlance& seen);
    Result<Done> lay_tables(const HeaderGlance& seen);
};

Result<Done> RescueCopy::State::copy(const QString& damaged) {
    if (const auto copied = copy_readable(damaged, file("copy")); !copied) return copied;
    for (const char* suffix : {"-wal", "-journal"}) {
        const QString beside = damaged + QLatin1String(suffix);
        if (!QFileInfo::exists(beside)) continue;
        const auto copied = copy_readable(beside, file("copy") + QLatin1String(suffix));
        if (!copied) return copied;
    }
    return Done{};
}

/// A version that this program doesn't know may be a damaged number: then the tables are ours.
Result<Done> RescueCopy::State::find_version(const QString& damaged, const HeaderGlance& seen) {
    const int newest = own_migrations().back().version;
    version = seen.sound && seen.version >= 1 && seen.version <= newest ? seen.version : newest;
    auto made = tables_of_version(file("fresh"), version);
    if (!made) return made.error();
    tables = std::move(made).value();
    if (!seen.sound) return Done{};
    const FoundSchema schema = read_schema(file("copy"), tables);
    constexpr int strays = 2;
    const bool another = schema.unlike > strays;
    if (another && seen.ours && seen.version > newest) {
        return file_error(ErrorCode::newer_version, damaged, std::to_string(seen.version),
                          std::to_string(newest));
    }
    if (!seen.ours && schema.known <= schema.unlike) {
        return file_error(ErrorCode::foreign_file, damaged);
    }
    return Done{};
}

Result<Done> RescueCopy::State::lay_tables(const HeaderGlance& seen) {
    const QString path = file("copy");
    const FoundSchema schema = read_schema(path, tables);
    for (const char* suffix : {"-wal", "-journal", "-shm"}) {
        QFile::remove(path + QLatin1String(suffix));
    }
    const std::int64_t pages = QFileInfo(path).size() / seen.page_size;
    const auto page =
        bare_first_page(file("bare"), seen.page_size, static_cast<std::uint32_t>(pages));
    if (!page) return page.error();
    if (const auto written = overwrite(path, *page); !written) return written;
    const auto roots = believed_roots(schema, tables, pages);
    {
        auto opened = Connection::open_existing(path.toStdString(), 0ms);
        if (!opened) return opened.error();
        Connection writer = std::move(opened).value();
        auto step = writer.run(QStringLiteral("PRAGMA writable_schema = ON"));
        for (const PlainTable& table : tables) {
            const auto root = roots.find(table.name);
            if (!step || root == roots.end()) continue;
            const QString name =
                table.name == QStringLiteral("sqlite_sequence") ? rescued_sequence : table.name;
            step = writer.run(
                QStringLiteral("INSERT INTO sqlite_schema (type, name, tbl_name, rootpage, sql)"
                               " VALUES ('table', ?, ?, ?, ?)"),
                {name, name, QVariant::fromValue<qlonglong>(root->second), plain_sql(table, name)});
        }
        if (!step) return step;
    }
    auto opened = Connection::open_existing(path.toStdString(), 0ms);
    if (!opened) return opened.error();
    connection.emplace(std::move(opened).value());
    return Done{};
}

RescueCopy::RescueCopy(std::unique_ptr<State> state) : state_(std::move(state)) {}
RescueCopy::RescueCopy(RescueCopy&& other) noexcept = default;
RescueCopy::~RescueCopy() = default;

Connection& RescueCopy::connection() {
    return *state_->connection;
}

int RescueCopy::version() const {
    return state_->version;
}

QStringList RescueCopy::columns_of(const QString& table) const {
    for (const PlainTable& known : state_->tables) {
        if (known.name == table) return known.columns;
    }
    return {};
}

Result<RescueCopy> RescueCopy::make(const std::string& damaged, const std::string& folder) {
    const QString path = QFileInfo(QString::fromStdString(damaged)).absoluteFilePath();
    auto state = std::make_unique<State>(
        QDir(QString::fromStdString(folder)).filePath(QStringLiteral(".rodway-rescue-XXXXXX")));
    if (!state->folder.isValid()) {
        return Error{ErrorCode::cannot_write, folder, "no_permission", {}, {}, {}};
    }
    if (const auto copied = state->copy(path); !copied) return copied.error();
    QFile file(state->file("copy"));
    if (!file.open(QIODevice::ReadOnly)) return file_error(ErrorCode::cannot_read, path);
    const QByteArray header = file.read(header_bytes);
    file.close();
    if (header.size() < header_bytes) return file_error(ErrorCode::foreign_file, path);
    HeaderGlance seen = glance_at_header(header);
    if (!seen.sound) {
        // A log is only played into a file that says it has one.
        const bool log = QFileInfo::exists(state->file("copy-wal"));
        const auto page = bare_first_page(
            state->file("head"), usual_page_size,
            static_cast<std::uint32_t>(QFileInfo(file.fileName()).size() / usual_page_size));
        if (!page) return page.error();
        QByteArray head = page->left(header_bytes);
        head[write_version_at] = log ? '\2' : '\1';
        head[read_version_at] = log ? '\2' : '\1';
        const auto written = overwrite(state->file("copy"), head);
        if (!written) return written.error();
    }
    settle(state->file("copy"));
    if (const auto known = state->find_version(path, seen); !known) return known.error();
    if (const auto laid = state->lay_tables(seen); !laid) return laid.error();
    return RescueCopy(std::move(state));
}

} // namespace rodway
