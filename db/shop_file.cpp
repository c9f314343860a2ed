#include "db/shop_file.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QStorageInfo>
#include <algorithm>
#include <array>
#include <utility>

#include "db/connection.h"
#include "db/durable_file.h"
#include "db/looking.h"
#include "db/migrations.h"
#include "db/temporary_files.h"

namespace rodway {

struct ShopFile::State {
    std::unique_ptr<QTemporaryDir> copy; ///< outlives its connection
    Connection connection;
    std::optional<std::string> backup;
    std::string identity; ///< of the file as it was opened
    std::optional<LookOnly> look_only;
};

namespace {

Error file_error(ErrorCode code, const QString& path, std::string value = {},
                 std::string expected = {}) {
    return Error{code, path.toStdString(), std::move(value), std::move(expected), {}, {}};
}

/// Takes a half-made shop file away.
class Leftovers {
  public:
    explicit Leftovers(QString path) : path_(std::move(path)) {}
    Leftovers(const Leftovers&) = delete;
    Leftovers& operator=(const Leftovers&) = delete;
    ~Leftovers() {
        for (const char* suffix : {"", "-journal"}) QFile::remove(path_ + QLatin1String(suffix));
    }

  private:
    QString path_;
};

bool is_on_network(const QFileInfo& file) {
#ifdef _WIN32
    if (file.absoluteFilePath().startsWith(QStringLiteral("//"))) return true;
#endif
    return is_network_file_system(QStorageInfo(file.absolutePath()).fileSystemType().toStdString());
}

/// Sets what every connection must have; an answer other than the wish is an error.
Result<Done> set_up_connection(Connection& connection, std::chrono::milliseconds patience,
                               bool on_network) {
    const std::array<std::pair<QString, QString>, 5> wishes{{
        {QStringLiteral("busy_timeout"), QString::number(static_cast<qlonglong>(patience.count()))},
        {QStringLiteral("journal_mode"),
         on_network ? QStringLiteral("delete") : QStringLiteral("wal")},
        // FULL; EXTRA beside a journal, whose removal commits and must be on the disk too.
        {QStringLiteral("synchronous"), on_network ? QStringLiteral("3") : QStringLiteral("2")},
        {QStringLiteral("fullfsync"), QStringLiteral("1")}, // macOS: past the disk's cache
        {QStringLiteral("foreign_keys"), QStringLiteral("1")},
    }};
    for (const auto& [name, wish] : wishes) {
        const auto set = connection.run(QStringLiteral("PRAGMA %1 = %2").arg(name, wish));
        if (!set) return set.error();
        const auto answer = connection.single(QStringLiteral("PRAGMA %1").arg(name));
        if (!answer) return answer.error();
        if (answer->toString() != wish) {
            return file_error(ErrorCode::cannot_write, QString::fromStdString(connection.path()),
                              answer->toString().toStdString(),
                              (name + QLatin1Char('=') + wish).toStdString());
        }
    }
    return Done{};
}

/// Reads only, so that a file which isn't ours stays as it is.
Result<Done> identify(Connection& connection, int newest) {
    const QString path = QString::fromStdString(connection.path());
    const auto application = connection.single(QStringLiteral("PRAGMA application_id"));
    if (!application) return application.error();
    if (application->toInt() != shop_application_id) {
        return file_error(ErrorCode::foreign_file, path);
    }
    const auto version = schema_version(connection);
    if (!version) return version.error();
    if (*version < 1) return file_error(ErrorCode::damaged_file, path);
    if (*version > newest) {
        return file_error(ErrorCode::newer_version, path, std::to_string(*version),
                          std::to_string(newest));
    }
    return Done{};
}

/// A shop that was carried from a local disk to a network disk still asks for a log.
Result<Done> leave_log(const std::string& path, std::chrono::milliseconds patience, int newest) {
    {
        auto opened = Connection::open_existing(path, patience);
        if (!opened) return opened.error();
        Connection connection = std::move(opened).value();
        if (const auto ours = identify(connection, newest); !ours) return ours;
        const auto mode = connection.single(QStringLiteral("PRAGMA journal_mode"));
        if (!mode) return mode.error();
        if (mode->toString() != QStringLiteral("wal")) return Done{};
    }
    const auto alone = Connection::open_alone(path, patience);
    if (!alone) return alone.error();
    return Done{};
}

/// A page that is torn or overwritten must be known before the first edit, not after.
Result<Done> refuse_damage(Connection& connection) {
    const auto page_size = connection.single(QStringLiteral("PRAGMA page_size"));
    if (!page_size) return page_size.error();
    const QString path = QString::fromStdString(connection.path());
    // SQLite takes a last page that is cut off for a whole one that ends in zeros. After a power
    // cut it may be cut off while the log still has it.
    const bool has_log = QFileInfo(path + QStringLiteral("-wal")).size() > 0;
    if (!has_log && QFileInfo(path).size() % page_size->toLongLong() != 0) {
        return file_error(ErrorCode::damaged_file, path);
    }
    // A file of many years would take minutes to read: its pages are read whole by every backup.
    constexpr qint64 most_bytes = qint64{16} << 20;
    if (QFileInfo(path).size() > most_bytes) return Done{};
    const auto answer = connection.single(QStringLiteral("PRAGMA quick_check(1)"));
    if (!answer) return answer.error();
    if (answer->toString() == QStringLiteral("ok")) return Done{};
    return file_error(ErrorCode::damaged_file, path, answer->toString().toStdString());
}

/// The file itself, links followed.
Result<QString> readable_file(const std::string& path) {
    const QFileInfo given(QString::fromStdString(path));
    if (!given.isFile() || !given.isReadable()) {
        return file_error(ErrorCode::cannot_read, given.absoluteFilePath());
    }
    return given.canonicalFilePath();
}

Result<Done> make_empty_shop(const QString& path) {
    auto created = Connection::create_new(path.toStdString());
    if (!created) return created.error();
    Connection connection = std::move(created).value();
    if (const auto set = connection.run(QStringLiteral("PRAGMA synchronous = FULL")); !set)
        return set;
    const auto migrated = migrate(connection, own_migrations());
    if (!migrated) return migrated.error();
    return Done{};
}

} // namespace

bool is_network_file_system(std::string_view type) {
    // "9p" carries a host's folders into a virtual machine, with the same lack of shared memory.
    constexpr std::array<std::string_view, 14> types{
        "nfs", "nfs4",  "cifs", "smb",  "smb2",       "smb3",       "smbfs",
        "afs", "ncpfs", "9p",   "ceph", "fuse.sshfs", "fuse.davfs", "webdav"};
    return std::find(types.begin(), types.end(), type) != types.end();
}

ShopFile::ShopFile(std::unique_ptr<State> state) : state_(std::move(state)) {}
ShopFile::ShopFile(ShopFile&& other) noexcept = default;
ShopFile& ShopFile::operator=(ShopFile&& other) noexcept = default;
ShopFile::~ShopFile() = default;

const std::string& ShopFile::path() const {
    return state_->connection.path();
}
const std::optional<std::string>& ShopFile::backup() const {
    return state_->backup;
}
const std::optional<LookOnly>& ShopFile::look_only() const {
    return state_->look_only;
}
Result<Done> ShopFile::still_there() const {
    const auto now = file_identity(path());
    if (!now) return now.error();
    if (*now == state_->identity) return Done{};
    return file_error(ErrorCode::cannot_read, QString::fromStdString(path()), "replaced");
}
Result<Done> ShopFile::set_patience(std::chrono::milliseconds patience) {
    return state_->connection.run(
        QStringLiteral("PRAGMA busy_timeout = %1").arg(static_cast<qlonglong>(patience.count())));
}
Connection& ShopFile::connection() {
    return state_->connection;
}

Result<ShopFile> ShopFile::create(const std::string& path) {
    const QFileInfo target(QString::fromStdString(path));
    // A log or journal left by a file of the same name would be played into the new one.
    for (const char* suffix : {"", "-wal", "-journal", "-shm"}) {
        const QFileInfo there(target.absoluteFilePath() + QLatin1String(suffix));
        if (there.exists() || there.isSymLink()) {
            return file_error(ErrorCode::cannot_write, there.absoluteFilePath(), "exists");
        }
    }
    const QFileInfo folder(target.absolutePath());
    if (!folder.isDir()) {
        return file_error(ErrorCode::cannot_write, target.absoluteFilePath(), "no_folder");
    }
    if (!folder.isWritable()) {
        return file_error(ErrorCode::cannot_write, target.absoluteFilePath(), "no_permission");
    }
    const QString temporary =
        QString::fromStdString(temporary_path(target.absolutePath().toStdString()));
    const Leftovers leftovers(temporary);
    if (const auto made = make_empty_shop(temporary); !made) return made.error();
    // Not over a file that came in between.
    const auto named =
        rename_to_free_name(temporary.toStdString(), target.absoluteFilePath().toStdString());
    if (!named) return named.error();
    return open(path);
}

Result<ShopFile> ShopFile::open(const std::string& path, std::chrono::milliseconds patience) {
    const auto found = readable_file(path);
    if (!found) return found.error();
    const QFileInfo file(*found);
    // The journal lies beside the file: both must be writable, and SQLite would say so too late.
    if (!may_be_written(*found))
        return file_error(ErrorCode::cannot_write, *found, "no_permission");
    const bool on_network = is_on_network(file);
    const std::vector<Migration> migrations = own_migrations();
    const std::string canonical = file.absoluteFilePath().toStdString();
    if (on_network) {
        if (const auto left = leave_log(canonical, patience, migrations.back().version); !left) {
            return left.error();
        }
    }
    auto opened = Connection::open_existing(canonical, patience);
    if (!opened) return opened.error();
    Connection connection = std::move(opened).value();
    auto identity = file_identity(connection.path());
    if (!identity) return identity.error();
    auto step = identify(connection, migrations.back().version);
    if (step) step = set_up_connection(connection, patience, on_network);
    if (step) step = refuse_damage(connection);
    if (!step) return step.error();
    auto backup = migrate(connection, migrations);
    if (!backup) return backup.error();
    return ShopFile(
        std::unique_ptr<State>(new State{nullptr, std::move(connection), std::move(backup).value(),
                                         std::move(identity).value(), std::nullopt}));
}

Result<ShopFile> ShopFile::open_to_look(const std::string& path,
                                        std::chrono::milliseconds patience) {
    const auto found = readable_file(path);
    if (!found) return found.error();
    if (may_be_written(*found)) return open(path, patience);
    auto identity = file_identity(found->toStdString());
    if (!identity) return identity.error();
    const std::vector<Migration> migrations = own_migrations();
    const int newest = migrations.back().version;
    const auto is_old = [newest](Connection& connection) -> Result<bool> {
        if (const auto ours = identify(connection, newest); !ours) return ours.error();
        const auto version = schema_version(connection);
        if (!version) return version.error();
        return *version < newest;
    };
    const auto settle = [&migrations, newest](Connection& copy) -> Result<Done> {
        if (const auto ours = identify(copy, newest); !ours) return ours.error();
        const auto migrated = migrate(copy, migrations);
        if (!migrated) return migrated.error();
        return Done{};
    };
    auto opened = open_looking(*found, patience, is_old, settle);
    if (!opened) return opened.error();
    Looking looking = std::move(opened).value();
    // An answer other than the wish doesn't matter where nothing is written.
    const auto set = looking.connection->run(QStringLiteral("PRAGMA foreign_keys = 1"));
    if (!set) return set.error();
    if (const auto sound = refuse_damage(*looking.connection); !sound) return sound.error();
    return ShopFile(std::unique_ptr<State>(
        new State{std::move(looking.folder), std::move(*looking.connection), std::nullopt,
                  std::move(identity).value(), looking.look_only}));
}

} // namespace rodway
