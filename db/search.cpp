#include "db/search.h"

#include <charconv>

#include "db/build_records.h"
#include "db/connection.h"
#include "db/record_rows.h"
#include "db/record_tables.h"
#include "db/search_fields.h"
#include "db/search_index.h"

namespace rodway {
namespace {

/// How much more a word in a title says than one in a text.
constexpr double weight_of_title = 4.0;

std::string text_at(const FieldTexts& fields, std::string_view field) {
    const auto found = fields.find(std::string(field));
    return found == fields.end() ? std::string() : found->second;
}

std::int64_t build_of(const RecordRef& record, const FieldTexts& fields) {
    if (record.kind == RecordKind::build) return record.id;
    const std::string text = text_at(fields, "build_id");
    std::int64_t build_id = shop_wide;
    std::from_chars(text.data(), text.data() + text.size(), build_id);
    return build_id;
}

Found found_in(const RecordRef& record, const FieldTexts& fields,
               const std::vector<QString>& words) {
    const SearchedKind& searched = *searched_kind(record.kind);
    Found found{record, build_of(record, fields), text_at(fields, searched.title), {}, {}};
    // The title is shown anyway: it comes last among fields that say as much.
    std::vector<std::string_view> names = searched.body;
    if (!searched.title.empty()) names.push_back(searched.title);
    for (const std::string_view name : names) {
        const std::string text = text_at(fields, name);
        if (text.empty()) continue;
        TextPassage passage = passage_around(text, words);
        if (!found.field.empty() && passage.words_found <= found.passage.words_found) continue;
        found.field = name;
        found.passage = std::move(passage);
    }
    return found;
}

/// The rows of an index in the order wanted.
Result<std::vector<std::int64_t>> matching_rows(Connection& connection, const QString& table,
                                                const QString& order,
                                                const std::vector<QString>& words, int limit) {
    std::vector<std::int64_t> rows;
    const auto read =
        connection.each(QStringLiteral("SELECT rowid FROM %1 WHERE %1 MATCH ? ORDER BY %2 LIMIT ?")
                            .arg(table, order),
                        {match_expression(words), limit},
                        [&rows](const Row& row) { rows.push_back(row.integer(0)); });
    if (!read) return read.error();
    return rows;
}

} // namespace

Result<std::vector<Found>> search(ShopFile& shop, const std::string& typed, int limit) {
    std::vector<Found> all;
    const std::vector<QString> words = typed_words(typed);
    if (words.empty() || limit < 1) return all;
    Connection& connection = shop.connection();
    // As of one moment, so that no record goes between its row in the index and its own.
    auto begun = Transaction::begin(connection, Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    const auto nouns = matching_rows(
        connection, QStringLiteral("search_nouns"),
        QStringLiteral("bm25(search_nouns, %1, 1.0), rowid DESC").arg(weight_of_title, 0, 'f', 1),
        words, limit);
    if (!nouns) return nouns.error();
    const auto readings = matching_rows(connection, QStringLiteral("search_readings"),
                                        QStringLiteral("rowid DESC"), words, limit);
    if (!readings) return readings.error();
    std::vector<RecordRef> records;
    records.reserve(nouns->size() + readings->size());
    for (const std::int64_t row : *nouns) {
        if (const auto record = record_of_noun_row(row)) records.push_back(*record);
    }
    for (const std::int64_t id : *readings) records.push_back({RecordKind::reading, id});
    for (const RecordRef& record : records) {
        const auto fields = stored_fields(connection, record);
        if (!fields) return fields.error();
        // An index that is behind its records, which `check` tells, must not show what is gone.
        if (can_be_found(*fields)) all.push_back(found_in(record, *fields, words));
    }
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    return all;
}

Result<Done> rebuild_search(ShopFile& shop) {
    auto begun = Transaction::begin(shop.connection(), Transaction::Kind::write);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    if (const auto made = remake_search(shop.connection()); !made) return made;
    return transaction.commit();
}

} // namespace rodway
