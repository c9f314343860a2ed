#include "db/erasure.h"

#include <QFile>
#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "db/attachments.h"
#include "db/connection.h"
#include "db/edits.h"
#include "db/history_seal.h"
#include "db/record_rows.h"
#include "db/record_tables.h"
#include "db/search_index.h"

namespace rodway {
namespace {

QVariant number_value(std::int64_t number) {
    return QVariant::fromValue<qlonglong>(number);
}
QVariant word_value(RecordKind kind) {
    return to_variant(std::string(table_of(kind).word));
}

/// An edit in the history whose texts are to go.
struct EditAt {
    std::int64_t act;
    int ordinal;

    bool operator<(const EditAt& other) const {
        return act != other.act ? act < other.act : ordinal < other.ordinal;
    }
};

/// All edits of a field; with `names`, only those that hold one of them.
Result<Done> find_edits(Connection& connection, const RecordRef& record, const std::string& field,
                        const std::set<std::string>* names, std::set<EditAt>& found) {
    return connection.each(
        QStringLiteral("SELECT act, ordinal, before, after FROM edits WHERE record_kind = ?"
                       " AND record_id = ? AND field = ? AND erased_digest IS NULL"),
        {word_value(record.kind), number_value(record.id), to_variant(field)}, [&](const Row& row) {
            const auto is_named = [names](const std::optional<std::string>& text) {
                return text && names->count(*text) != 0;
            };
            if (names != nullptr && !is_named(row.optional_text(2)) &&
                !is_named(row.optional_text(3))) {
                return;
            }
            found.insert({row.integer(0), static_cast<int>(row.integer(1))});
        });
}

/// Gives every edit of an act its own salt, so that the act's, which leads to all of them, can go.
Result<Done> part_salts(Connection& connection, std::int64_t act) {
    const auto salt = connection.single(QStringLiteral("SELECT salt FROM acts WHERE number = ?"),
                                        {number_value(act)});
    if (!salt) return salt.error();
    if (salt->isNull()) return Done{}; // parted at an earlier erasure
    std::vector<int> ordinals;
    auto step = connection.each(
        QStringLiteral("SELECT ordinal FROM edits WHERE act = ?"), {number_value(act)},
        [&ordinals](const Row& row) { ordinals.push_back(static_cast<int>(row.integer(0))); });
    for (const int ordinal : ordinals) {
        if (!step) return step;
        step = connection.run(
            QStringLiteral("UPDATE edits SET salt = ? WHERE act = ? AND ordinal = ?"),
            {salt_of_edit(salt->toByteArray(), ordinal), number_value(act), ordinal});
    }
    if (!step) return step;
    return connection.run(QStringLiteral("UPDATE acts SET salt = NULL WHERE number = ?"),
                          {number_value(act)});
}

Result<Done> erase_edit(Connection& connection, const EditAt& at) {
    QByteArray digest;
    auto step = connection.each(
        QStringLiteral("SELECT salt, before, after FROM edits WHERE act = ? AND ordinal = ?"),
        {number_value(at.act), at.ordinal}, [&digest](const Row& row) {
            digest = digest_of_edit(row.bytes(0), row.optional_text(1), row.optional_text(2));
        });
    if (!step) return step;
    return connection.run(
        QStringLiteral("UPDATE edits SET before = NULL, after = NULL, salt = NULL,"
                       " erased_digest = ? WHERE act = ? AND ordinal = ?"),
        {digest, number_value(at.act), at.ordinal});
}

/// The edits that take the texts out of the records as they are stored now.
Result<std::vector<Edit>> edits_of(Connection& connection, const std::vector<TextToErase>& texts) {
    std::vector<Edit> edits;
    for (const TextToErase& text : texts) {
        const auto stored = stored_fields(connection, text.record);
        if (!stored) return stored.error();
        const auto found = stored->find(text.field);
        if (found == stored->end() || found->second == text.instead) continue;
        edits.push_back(Edit{text.record, text.field, found->second, text.instead});
    }
    return edits;
}

/// Nothing may be left where SQLite has only marked it as free.
bool clear_file(Connection& connection) {
    if (!connection.run(QStringLiteral("VACUUM"))) return false;
    const auto busy = connection.single(QStringLiteral("PRAGMA wal_checkpoint(TRUNCATE)"));
    return busy && busy->toInt() == 0;
}

/// One erasure inside a write transaction.
class Eraser {
  public:
    explicit Eraser(ShopFile& shop) : shop_(shop), connection_(shop.connection()) {}

    /// `erasing` may add edits of its own to those that take the texts out.
    Result<Act> erase(const std::vector<TextToErase>& texts, std::vector<Edit> further,
                      const std::string& who, const std::string& when_utc) {
        auto edits = edits_of(connection_, texts);
        if (!edits) return edits.error();
        Act act{0, who, when_utc, std::nullopt, std::move(edits).value()};
        act.edits.insert(act.edits.end(), std::make_move_iterator(further.begin()),
                         std::make_move_iterator(further.end()));
        if (!act.edits.empty()) {
            if (const auto written = apply_within(shop_, act); !written) return written.error();
        }
        for (const TextToErase& text : texts) {
            const auto found = find_edits(connection_, text.record, text.field, nullptr, edits_);
            if (!found) return found.error();
        }
        std::set<std::int64_t> parted;
        for (const EditAt& at : edits_) {
            Result<Done> step = Done{};
            if (parted.insert(at.act).second) step = part_salts(connection_, at.act);
            if (step) step = erase_edit(connection_, at);
            if (!step) return step.error();
        }
        if (const auto dropped = drop_old_search_words(connection_); !dropped) {
            return dropped.error();
        }
        for (Edit& edit : act.edits) {
            const bool gone = std::any_of(texts.begin(), texts.end(), [&edit](const auto& text) {
                return text.record == edit.record && text.field == edit.field;
            });
            if (gone) edit = Edit{edit.record, edit.field, std::nullopt, std::nullopt, true};
        }
        return act;
    }

    /// Edits of a field of which only those with one of the names are meant.
    Result<Done> add_named(const RecordRef& record, const std::string& field,
                           const std::set<std::string>& names) {
        return find_edits(connection_, record, field, &names, edits_);
    }

  private:
    ShopFile& shop_;
    Connection& connection_;
    std::set<EditAt> edits_;
};

/// Every name that the customer's record ever had.
Result<std::set<std::string>> names_of(Connection& connection, const RecordRef& customer) {
    std::set<std::string> names;
    const auto rows = connection.each(
        QStringLiteral("SELECT after FROM edits WHERE record_kind = ? AND record_id = ?"
                       " AND field = 'name' AND after IS NOT NULL"),
        {word_value(customer.kind), number_value(customer.id)},
        [&names](const Row& row) { names.insert(row.text(0)); });
    if (!rows) return rows.error();
    return names;
}

/// Builds that are the customer's now (true) or were at some time (false).
Result<std::map<std::int64_t, bool>> builds_of(Connection& connection, std::int64_t customer_id) {
    std::map<std::int64_t, bool> builds;
    auto rows = connection.each(
        QStringLiteral("SELECT DISTINCT record_id FROM edits WHERE record_kind = 'build'"
                       " AND field = 'customer_id' AND after = ?"),
        {QString::number(customer_id)},
        [&builds](const Row& row) { builds[row.integer(0)] = false; });
    if (!rows) return rows.error();
    rows = connection.each(QStringLiteral("SELECT id FROM builds WHERE customer_id = ?"),
                           {number_value(customer_id)},
                           [&builds](const Row& row) { builds[row.integer(0)] = true; });
    if (!rows) return rows.error();
    return builds;
}

/// Digests of the books given away of his builds that were given away of nobody else's.
Result<std::set<std::string>> books_of(Connection& connection,
                                       const std::map<std::int64_t, bool>& builds) {
    std::set<std::string> his;
    std::set<std::string> others;
    const auto rows = connection.each(
        QStringLiteral("SELECT build_id, book_digest FROM hand_offs WHERE book_digest IS NOT NULL"),
        {}, [&](const Row& row) {
            const auto build = builds.find(row.integer(0));
            const bool is_his = build != builds.end() && build->second;
            (is_his ? his : others).insert(row.text(1));
        });
    if (!rows) return rows.error();
    for (const std::string& digest : others) his.erase(digest);
    return his;
}

void delete_books(const ShopFile& shop, const std::set<std::string>& digests, Erasure& erasure) {
    for (const std::string& digest : digests) {
        const auto path = path_of(shop, digest);
        if (!path) continue; // it went before
        if (QFile::remove(QString::fromStdString(*path))) {
            ++erasure.books_deleted;
        } else {
            erasure.books_left.push_back(*path);
        }
    }
}

/// Text fields of any record that hold one of the names.
Result<std::vector<TextToErase>> fields_that_name(Connection& connection,
                                                  const std::set<std::string>& names) {
    std::vector<TextToErase> found;
    for (const RecordTable& table : record_tables()) {
        for (const RecordField& field : table.fields) {
            if (field.form != FieldForm::text) continue;
            const QString column =
                QString::fromLatin1(field.name.data(), static_cast<qsizetype>(field.name.size()));
            for (const std::string& name : names) {
                const auto rows = connection.each(
                    QStringLiteral("SELECT id FROM %1 WHERE instr(lower(%2), lower(?))")
                        .arg(QString::fromLatin1(table.table.data(),
                                                 static_cast<qsizetype>(table.table.size())),
                             column),
                    {to_variant(name)}, [&](const Row& row) {
                        found.push_back(
                            {{table.kind, row.integer(0)}, std::string(field.name), std::nullopt});
                    });
                if (!rows) return rows.error();
            }
        }
    }
    return found;
}

} // namespace

Result<Erasure> erase_texts(ShopFile& shop, const std::vector<TextToErase>& texts,
                            const std::string& who, const std::string& when_utc) {
    Erasure erasure;
    {
        auto begun = Transaction::begin(shop.connection(), Transaction::Kind::write);
        if (!begun) return begun.error();
        Transaction transaction = std::move(begun).value();
        auto act = Eraser(shop).erase(texts, {}, who, when_utc);
        if (!act) return act.error();
        erasure.act = std::move(act).value();
        if (const auto done = transaction.commit(); !done) return done.error();
    }
    erasure.file_cleared = clear_file(shop.connection());
    return erasure;
}

Result<Erasure> erase_customer(ShopFile& shop, std::int64_t customer_id, const std::string& who,
                               const std::string& when_utc) {
    Connection& connection = shop.connection();
    const RecordRef customer{RecordKind::customer, customer_id};
    Erasure erasure;
    std::set<std::string> books;
    {
        auto begun = Transaction::begin(connection, Transaction::Kind::write);
        if (!begun) return begun.error();
        Transaction transaction = std::move(begun).value();
        const auto stored = stored_fields(connection, customer);
        const auto names = names_of(connection, customer);
        const auto builds = builds_of(connection, customer_id);
        if (!stored) return stored.error();
        if (!names) return names.error();
        if (!builds) return builds.error();
        const auto given = books_of(connection, *builds);
        if (!given) return given.error();
        books = *given;
        if (stored->empty()) {
            return Error{
                ErrorCode::no_such_record, "customer", std::to_string(customer_id), {}, {}, {}};
        }
        Eraser eraser(shop);
        std::vector<TextToErase> texts;
        for (const RecordField& field : table_of(RecordKind::customer).fields) {
            if (!field.personal) continue;
            std::optional<std::string> instead;
            if (field.needed) instead = "-";
            texts.push_back({customer, std::string(field.name), instead});
        }
        for (const auto& [build_id, is_his] : *builds) {
            erasure.builds.push_back(build_id);
            const RecordRef build{RecordKind::build, build_id};
            if (is_his) {
                texts.push_back({build, "customer", std::nullopt});
            } else if (const auto added = eraser.add_named(build, "customer", *names); !added) {
                return added.error();
            }
        }
        const auto erased = stored->find("erased");
        std::vector<Edit> stamp;
        if (erased == stored->end()) stamp.push_back({customer, "erased", std::nullopt, when_utc});
        auto act = eraser.erase(texts, std::move(stamp), who, when_utc);
        if (!act) return act.error();
        erasure.act = std::move(act).value();
        auto named = fields_that_name(connection, *names);
        if (!named) return named.error();
        erasure.still_named = std::move(named).value();
        if (const auto done = transaction.commit(); !done) return done.error();
    }
    delete_books(shop, books, erasure); // only once he is gone from the records
    erasure.file_cleared = clear_file(connection);
    return erasure;
}

} // namespace rodway
