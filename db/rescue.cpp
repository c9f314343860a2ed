#include "db/rescue.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include "db/attachments.h"
#include "db/connection.h"
#include "db/durable_file.h"
#include "db/history_seal.h"
#include "db/migrations.h"
#include "db/record_rows.h"
#include "db/record_tables.h"
#include "db/rescue_copy.h"
#include "db/rescue_records.h"
#include "db/rescue_rows.h"
#include "db/seal_check.h"
#include "db/search_index.h"
#include "db/shop_file.h"
#include "db/temporary_files.h"

namespace rodway {
namespace {

QVariant number_value(std::int64_t number) {
    return QVariant::fromValue<qlonglong>(number);
}

QVariant bytes_value(const QByteArray& bytes) {
    return bytes.isEmpty() ? QVariant() : QVariant(bytes);
}

Error target_error(const QString& path, std::string value) {
    return Error{ErrorCode::cannot_write, path.toStdString(), std::move(value), {}, {}, {}};
}

/// A row that the new file's own rules refuse is no row: false. Other failures are the disk's.
Result<bool> accepted(const Result<Done>& written) {
    if (written) return true;
    if (written.error().code == ErrorCode::wrong_type) return false;
    return written.error();
}

/// The new file under a temporary name, which goes away unless it is given its own.
class NewShop {
  public:
    static Result<NewShop> begin(const QString& target) {
        NewShop made;
        made.path_ =
            QString::fromStdString(temporary_path(QFileInfo(target).absolutePath().toStdString()));
        auto created = Connection::create_new(made.path_.toStdString());
        if (!created) return created.error();
        made.connection_.emplace(std::move(created).value());
        auto step = made.connection_->run(QStringLiteral("PRAGMA synchronous = FULL"));
        if (!step) return step.error();
        const auto migrated = migrate(*made.connection_, own_migrations());
        if (!migrated) return migrated.error();
        return made;
    }

    NewShop(NewShop&& other) noexcept
        : path_(std::exchange(other.path_, QString())), connection_(std::move(other.connection_)) {
        other.connection_.reset();
    }
    NewShop& operator=(NewShop&&) = delete;
    NewShop(const NewShop&) = delete;
    NewShop& operator=(const NewShop&) = delete;
    ~NewShop() {
        connection_.reset();
        if (path_.isEmpty()) return;
        for (const char* suffix : {"", "-journal"}) QFile::remove(path_ + QLatin1String(suffix));
    }

    Connection& connection() { return *connection_; }

    Result<Done> keep_as(const QString& target) {
        connection_.reset();
        return rename_to_free_name(path_.toStdString(), target.toStdString());
    }

  private:
    NewShop() = default;
    QString path_;
    std::optional<Connection> connection_;
};

/// Brings what was read into the new file, in one transaction.
class RescueWriter {
  public:
    RescueWriter(Connection& connection, const RescuedRows& rows, int version)
        : connection_(connection), rows_(rows), version_(version), history_(replay_rows(rows)) {}

    Result<RescueReport> write() {
        auto begun = Transaction::begin(connection_, Transaction::Kind::write);
        if (!begun) return begun.error();
        Transaction transaction = std::move(begun).value();
        auto step = write_acts();
        if (step) step = write_edits();
        if (step) step = write_links();
        // Only acts that never had a seal get one now.
        constexpr int sealing = 2;
        if (step && version_ < sealing) step = seal_old_history(connection_);
        if (step) step = count_acts();
        if (step) step = read_seals();
        if (step) step = write_records();
        if (step) step = refuse_loose_ends();
        if (step) step = remake_search(connection_);
        if (step) step = transaction.commit();
        if (!step) return step.error();
        return std::move(report_);
    }

  private:
    Result<Done> write_acts() {
        for (const auto& [number, act] : rows_.acts) {
            const bool undone_there = act.undoes && written_acts_.count(*act.undoes) != 0;
            if (number < 1 || !is_utc_time(act.when_utc)) continue;
            const auto taken = accepted(connection_.run(
                QStringLiteral("INSERT INTO acts (number, who, when_utc, undoes, salt)"
                               " VALUES (?, ?, ?, ?, ?)"),
                {number_value(number), to_variant(act.who), to_variant(act.when_utc),
                 undone_there ? number_value(*act.undoes) : QVariant(), bytes_value(act.salt)}));
            if (!taken) return taken.error();
            if (*taken) written_acts_.insert(number);
        }
        report_.acts = static_cast<std::int64_t>(written_acts_.size());
        return Done{};
    }

    Result<Done> write_edits() {
        for (const auto& [at, edit] : rows_.edits) {
            const auto kind = record_kind_from(edit.record_kind);
            if (written_acts_.count(at.first) == 0 || !kind) continue;
            std::int64_t build_id = edit.build_id.value_or(shop_wide);
            if (version_ < 2) build_id = history_.build_of({*kind, edit.record_id});
            const auto taken = accepted(connection_.run(
                QStringLiteral("INSERT INTO edits (act, ordinal, build_id, record_kind, record_id,"
                               " field, before, after, salt, erased_digest)"
                               " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"),
                {number_value(at.first), number_value(at.second),
                 build_id == shop_wide ? QVariant() : number_value(build_id),
                 to_variant(edit.record_kind), number_value(edit.record_id), to_variant(edit.field),
                 to_variant(edit.before), to_variant(edit.after), bytes_value(edit.salt),
                 bytes_value(edit.erased_digest)}));
            if (!taken) return taken.error();
            if (*taken) acts_with_edits_.insert(at.first);
        }
        return Done{};
    }

    Result<Done> write_links() {
        for (const auto& [at, digest] : rows_.links) {
            if (written_acts_.count(at.second) == 0) continue;
            const auto taken = accepted(connection_.run(
                QStringLiteral("INSERT INTO history_links (build_id, act, digest)"
                               " VALUES (?, ?, ?)"),
                {number_value(at.first), number_value(at.second), bytes_value(digest)}));
            if (!taken) return taken.error();
        }
        return Done{};
    }

    /// Numbers are given without a gap and never twice, so that a missing one is a lost act.
    Result<Done> count_acts() {
        // Further behind than any damage would leave it, the count itself is what is damaged.
        constexpr std::int64_t most_missing = 100'000;
        std::int64_t last = 0;
        const auto name = [&last](std::int64_t number) {
            if (number <= last + most_missing) last = std::max(last, number);
        };
        for (const auto& [number, unused] : rows_.acts) name(number);
        for (const auto& [at, unused] : rows_.edits) name(at.first);
        for (const auto& [at, unused] : rows_.links) name(at.second);
        for (std::int64_t number = 1; number <= last; ++number) {
            if (written_acts_.count(number) == 0) report_.lost_acts.push_back(number);
        }
        const std::int64_t missing = rows_.newest_act - last;
        if (missing > 0 && missing <= most_missing) report_.acts_missing_at_end = missing;
        const auto counted = connection_.single(
            QStringLiteral("SELECT count(*) FROM sqlite_sequence WHERE name = 'acts'"));
        if (!counted) return counted.error();
        return connection_.run(
            counted->toInt() > 0
                ? QStringLiteral("UPDATE sqlite_sequence SET seq = ? WHERE name = 'acts'")
                : QStringLiteral("INSERT INTO sqlite_sequence (seq, name) VALUES (?, 'acts')"),
            {number_value(last + report_.acts_missing_at_end)});
    }

    Result<Done> read_seals() {
        std::vector<Finding> findings;
        if (const auto checked = check_seals(connection_, findings); !checked) return checked;
        for (const Finding& finding : findings) {
            if (finding.code != FindingCode::history_altered) continue;
            altered_.insert(finding.record ? finding.record->id : shop_wide);
        }
        return Done{};
    }

    /// A lost act may have touched any build, and one without edits has lost them.
    [[nodiscard]] bool sealed(std::int64_t build_id) const {
        return rows_.history_whole && report_.lost_acts.empty() &&
               report_.acts_missing_at_end == 0 && !written_acts_.empty() &&
               acts_with_edits_ == written_acts_ && altered_.count(build_id) == 0;
    }

    Result<Done> write_records() {
        SettledRecords settled = settle_records(
            rows_, history_, [this](std::int64_t build_id) { return sealed(build_id); });
        for (const auto& [ref, texts] : settled.records) {
            const auto written = insert_record(connection_, ref, texts);
            if (!written) return written;
            ++report_.records[ref.kind].as_stored;
        }
        report_.notes = std::move(settled.notes);
        std::set<RecordRef, ByKindAndId> replayed;
        std::set<RecordRef, ByKindAndId> lost;
        for (const RescueNote& note : report_.notes) {
            const bool gone = settled.records.count(note.record) == 0;
            if (gone && note.code != RescueCode::no_row) lost.insert(note.record);
            if (note.code == RescueCode::replayed) replayed.insert(note.record);
        }
        for (const RecordRef& ref : lost) {
            ++report_.records[ref.kind].lost;
            replayed.erase(ref);
        }
        for (const RecordRef& ref : replayed) {
            ++report_.records[ref.kind].replayed;
            --report_.records[ref.kind].as_stored;
        }
        return Done{};
    }

    Result<Done> refuse_loose_ends() {
        const auto loose = connection_.single(QStringLiteral("PRAGMA foreign_key_check"));
        if (!loose) return loose.error();
        RODWAY_ASSERT(!loose->isValid());
        return Done{};
    }

    Connection& connection_;
    const RescuedRows& rows_;
    int version_;
    RescuedHistory history_;
    RescueReport report_;
    std::set<std::int64_t> written_acts_;
    std::set<std::int64_t> acts_with_edits_;
    std::set<std::int64_t> altered_; ///< builds
};

Result<Done> refuse_target(const QString& target) {
    // A log or journal left by a file of the same name would be played into the new one.
    for (const char* suffix : {"", "-wal", "-journal", "-shm"}) {
        const QFileInfo there(target + QLatin1String(suffix));
        if (there.exists() || there.isSymLink()) {
            return target_error(there.absoluteFilePath(), "exists");
        }
    }
    const QFileInfo folder(QFileInfo(target).absolutePath());
    if (!folder.isDir()) return target_error(target, "no_folder");
    if (!folder.isWritable()) return target_error(target, "no_permission");
    return Done{};
}

/// What fails on the new file's way is told of the name that the user knows.
Error told_of(const QString& target, Error error) {
    if (error.code == ErrorCode::cannot_write) error.field = target.toStdString();
    return error;
}

} // namespace

Result<RescueReport> rescue(const std::string& damaged, const std::string& target) {
    const QString path = QFileInfo(QString::fromStdString(target)).absoluteFilePath();
    if (const auto refused = refuse_target(path); !refused) return refused.error();
    const QFileInfo given(QString::fromStdString(damaged));
    if (!given.isFile() || !given.isReadable()) {
        return Error{
            ErrorCode::cannot_read, given.absoluteFilePath().toStdString(), {}, {}, {}, {}};
    }
    const QString source = given.canonicalFilePath();
    const std::string folder = QFileInfo(path).absolutePath().toStdString();
    RescuedRows rows;
    int version = 0;
    {
        auto made = RescueCopy::make(source.toStdString(), folder);
        if (!made) return told_of(path, made.error());
        RescueCopy copy = std::move(made).value();
        rows = read_rows(copy);
        version = copy.version();
    }
    auto begun = NewShop::begin(path);
    if (!begun) return told_of(path, begun.error());
    NewShop shop = std::move(begun).value();
    auto written = RescueWriter(shop.connection(), rows, version).write();
    if (!written) return told_of(path, written.error());
    RescueReport report = std::move(written).value();
    const bool any = std::any_of(
        report.records.begin(), report.records.end(),
        [](const auto& kind) { return kind.second.as_stored + kind.second.replayed > 0; });
    if (report.acts == 0 && !any) {
        return Error{ErrorCode::damaged_file, source.toStdString(), "unreadable", {}, {}, {}};
    }
    const std::string photos_from = photos_folder(source.toStdString());
    const std::string photos_to = photos_folder(path.toStdString());
    if (photos_from != photos_to) {
        auto copied = copy_photos(photos_from, photos_to);
        if (!copied) return copied.error();
        report.photos_copied = copied->copied;
        report.photos_altered = copied->altered;
    }
    if (const auto kept = shop.keep_as(path); !kept) return kept.error();
    auto opened = ShopFile::open(path.toStdString());
    if (!opened) return opened.error();
    ShopFile file = std::move(opened).value();
    auto checked = file.check();
    if (!checked) return checked.error();
    report.check = std::move(checked).value();
    return report;
}

} // namespace rodway
