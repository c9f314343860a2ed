#include "db/search_index.h"

#include <QCryptographicHash>
#include <QStringList>
#include <array>

#include "db/record_tables.h"
#include "db/search_fields.h"

namespace rodway {
namespace {

struct Index {
    const char* table;
    const char* columns;
    bool of_readings;
};
constexpr std::array<Index, 2> indexes{
    {{"search_nouns", "title, body", false}, {"search_readings", "body", true}}};

QString latin(std::string_view text) {
    return QString::fromLatin1(text.data(), static_cast<qsizetype>(text.size()));
}

/// The fields' texts one below the other. The index counts words, so that a blank line more or less
/// is the same to it.
QString joined_texts(const FieldTexts& fields, const std::vector<std::string_view>& names) {
    QStringList texts;
    for (const std::string_view name : names) {
        const auto found = fields.find(std::string(name));
        if (found != fields.end()) texts << QString::fromStdString(found->second);
    }
    return texts.join(QLatin1Char('\n'));
}

/// The same in SQL.
QString joined_columns(const std::vector<std::string_view>& names) {
    QStringList columns;
    for (const std::string_view name : names) {
        columns << QStringLiteral("coalesce(%1, '')").arg(latin(name));
    }
    return columns.isEmpty() ? QStringLiteral("''")
                             : columns.join(QStringLiteral(" || char(10) || "));
}

/// The names of the fields behind each column of the kind's index.
std::vector<std::vector<std::string_view>> columns_of(const SearchedKind& searched) {
    std::vector<std::string_view> title;
    if (!searched.title.empty()) title.push_back(searched.title);
    if (searched.kind != RecordKind::reading) return {title, searched.body};
    title.insert(title.end(), searched.body.begin(), searched.body.end());
    return {title};
}

/// The texts of the kind's columns; none if the record can't be found.
QVariantList texts_of(const SearchedKind& searched, const FieldTexts& fields) {
    QVariantList texts;
    if (!can_be_found(fields)) return texts;
    for (const auto& names : columns_of(searched)) texts << joined_texts(fields, names);
    return texts;
}

Result<Done> update_record_words(Connection& connection, const SearchedKind& searched,
                                 const SearchedChange& change) {
    const QVariantList before = texts_of(searched, change.before);
    const QVariantList after = texts_of(searched, change.after);
    if (before == after) return Done{};
    const bool of_readings = searched.kind == RecordKind::reading;
    const auto row = of_readings ? std::optional(change.record.id) : noun_row(change.record);
    if (!row) {
        Error error{ErrorCode::out_of_range, "id", std::to_string(change.record.id), {}, {}, {}};
        error.limits = Limits{1.0, static_cast<double>(highest_searched_id), {}};
        return error;
    }
    const Index& index = indexes[of_readings ? 1 : 0];
    const QString marks = of_readings ? QStringLiteral("?") : QStringLiteral("?, ?");
    const auto id = QVariant::fromValue<qlonglong>(*row);
    if (!before.isEmpty()) {
        const auto removed =
            connection.run(QStringLiteral("INSERT INTO %1 (%1, rowid, %2) VALUES ('delete', ?, %3)")
                               .arg(latin(index.table), latin(index.columns), marks),
                           QVariantList{id} + before);
        if (!removed) return removed;
    }
    if (after.isEmpty()) return Done{};
    return connection.run(QStringLiteral("INSERT INTO %1 (rowid, %2) VALUES (?, %3)")
                              .arg(latin(index.table), latin(index.columns), marks),
                          QVariantList{id} + after);
}

/// Fills an empty table of the index's form.
Result<Done> fill(Connection& connection, const Index& index, const QString& table) {
    for (const SearchedKind& searched : searched_kinds()) {
        const bool reading = searched.kind == RecordKind::reading;
        if (reading != index.of_readings) continue;
        QStringList columns;
        for (const auto& names : columns_of(searched)) columns << joined_columns(names);
        const RecordTable& records = table_of(searched.kind);
        // On its way through the versions a file hasn't every kind of record yet.
        const auto there = connection.single(
            QStringLiteral("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = ?"),
            {latin(records.table)});
        if (!there) return there.error();
        if (there->toInt() == 0) continue;
        const bool erasable = find_field(records, "erased") != nullptr;
        const QString row =
            reading ? QStringLiteral("id")
                    : QStringLiteral("id * %1 + %2").arg(numbers_of_kinds).arg(searched.number);
        const auto filled = connection.run(
            QStringLiteral("INSERT INTO %1 (rowid, %2) SELECT %3, %4 FROM %5 WHERE %6 ORDER BY id")
                .arg(table, latin(index.columns), row, columns.join(QStringLiteral(", ")),
                     latin(records.table),
                     erasable ? QStringLiteral("erased IS NULL") : QStringLiteral("1")));
        if (!filled) return filled;
    }
    return Done{};
}

/// A digest of every word with its record and place, and of each record's count of words.
Result<QByteArray> digest_of_words(Connection& connection, const QString& schema,
                                   const QString& table) {
    auto step = connection.run(
        QStringLiteral("CREATE VIRTUAL TABLE temp.search_words USING fts5vocab(%1, %2, instance)")
            .arg(schema, table));
    if (!step) return step.error();
    QCryptographicHash hash(QCryptographicHash::Sha256);
    step = connection.each(QStringLiteral("SELECT term, doc, col, offset FROM temp.search_words"),
                           {}, [&hash](const Row& row) {
                               hash.addData(QByteArray::fromStdString(row.text(0)));
                               hash.addData(QByteArrayLiteral("\n"));
                               for (const int column : {1, 3})
                                   hash.addData(QByteArray::number(row.integer(column)) + ' ');
                               hash.addData(QByteArray::fromStdString(row.text(2)) + '\n');
                           });
    if (step) {
        step = connection.each(
            QStringLiteral("SELECT id, sz FROM %1.%2_docsize ORDER BY id").arg(schema, table), {},
            [&hash](const Row& row) {
                hash.addData(QByteArray::number(row.integer(0)) + ' ');
                hash.addData(row.bytes(1).toHex() + '\n');
            });
    }
    const auto dropped = connection.run(QStringLiteral("DROP TABLE temp.search_words"));
    if (!step) return step.error();
    if (!dropped) return dropped.error();
    return hash.result();
}

Result<QByteArray> digest_from_records(Connection& connection, const Index& index) {
    const QString table = QStringLiteral("search_twin");
    auto step =
        connection.run(QStringLiteral("CREATE VIRTUAL TABLE temp.%1 USING fts5(%2, content='',"
                                      " tokenize=\"unicode61 remove_diacritics 2\")")
                           .arg(table, latin(index.columns)));
    if (!step) return step.error();
    step = fill(connection, index, QStringLiteral("temp.") + table);
    auto digest = step ? digest_of_words(connection, QStringLiteral("temp"), table)
                       : Result<QByteArray>(step.error());
    const auto dropped = connection.run(QStringLiteral("DROP TABLE temp.") + table);
    if (!dropped && digest) return dropped.error();
    return digest;
}

} // namespace

Result<Done> update_search(Connection& connection, const std::vector<SearchedChange>& changes) {
    for (const SearchedChange& change : changes) {
        const SearchedKind* searched = searched_kind(change.record.kind);
        if (searched == nullptr) continue;
        const auto updated = update_record_words(connection, *searched, change);
        if (updated) continue;
        if (updated.error().code == ErrorCode::damaged_file) return remake_search(connection);
        return updated;
    }
    return Done{};
}

Result<Done> remake_search(Connection& connection) {
    for (const Index& index : indexes) {
        auto step = connection.run(
            QStringLiteral("INSERT INTO %1 (%1) VALUES ('delete-all')").arg(latin(index.table)));
        if (step) step = fill(connection, index, latin(index.table));
        if (!step) return step;
    }
    return Done{};
}

Result<Done> drop_old_search_words(Connection& connection) {
    // Readings hold nothing personal, and merging theirs would take long.
    return connection.run(
        QStringLiteral("INSERT INTO search_nouns (search_nouns) VALUES ('optimize')"));
}

Result<Done> check_search(Connection& connection, std::vector<Finding>& findings) {
    for (const Index& index : indexes) {
        const auto wanted = digest_from_records(connection, index);
        if (!wanted) return wanted.error();
        const auto found = digest_of_words(connection, QStringLiteral("main"), latin(index.table));
        // An index that can't even be read is the index's damage, not the file's.
        if (!found && found.error().code != ErrorCode::damaged_file) return found.error();
        if (!found || *found != *wanted) {
            findings.push_back({FindingCode::search_index_differs, std::nullopt, index.table});
        }
    }
    return Done{};
}

} // namespace rodway
