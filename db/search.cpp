#include "db/search.h"

#include <QStringList>
#include <algorithm>
#include <charconv>
#include <map>

#include "db/build_records.h"
#include "db/connection.h"
#include "db/record_rows.h"
#include "db/record_tables.h"
#include "db/search_fields.h"
#include "db/search_index.h"
#include "db/search_query.h"

namespace rodway {
namespace {

/// How much more a word in a title says than one in a text.
constexpr double weight_of_title = 4.0;
/// Of more nouns than can be compared, the newest of each kind are taken from so many.
constexpr int looked_at_for_a_kind = 200;

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

/// Okapi BM25 with its usual k1 and b, every word counting alike, and a constant for the mean
/// length. Greater is better.
double rank_of(const RecordRef& record, const FieldTexts& fields,
               const std::vector<QString>& words) {
    constexpr double k1 = 1.2;
    constexpr double b = 0.75;
    constexpr double usual_words = 12.0;
    const SearchedKind& searched = *searched_kind(record.kind);
    const WordCount title = count_words(text_at(fields, searched.title), words);
    std::string text;
    for (const std::string_view name : searched.body) text += text_at(fields, name) + '\n';
    const WordCount body = count_words(text, words);
    const double length = double(title.words + body.words) / usual_words;
    double rank = 0.0;
    for (std::size_t word = 0; word < words.size(); ++word) {
        const double times = weight_of_title * title.times[word] + body.times[word];
        rank += times * (k1 + 1.0) / (times + k1 * (1.0 - b + b * length));
    }
    return rank;
}

/// Rows of an index in which the query's words stand, newest first. Of `table`, `query` is its
/// `match_expression`.
struct IndexQuery {
    Connection& connection;
    QString table;
    QString query;

    [[nodiscard]] Result<std::vector<std::int64_t>> newest(int limit,
                                                           std::int64_t highest_row) const {
        std::vector<std::int64_t> rows;
        const auto read =
            connection.each(QStringLiteral("SELECT rowid FROM %1 WHERE %1 MATCH ? AND rowid <= ?"
                                           " ORDER BY rowid DESC LIMIT ?")
                                .arg(table),
                            {query, QVariant::fromValue<qlonglong>(highest_row), limit},
                            [&rows](const Row& row) { rows.push_back(row.integer(0)); });
        if (!read) return read.error();
        return rows;
    }
};

Result<IndexQuery> query_of(Connection& connection, const QString& table,
                            const std::vector<QString>& words) {
    auto query = match_expression(connection, table, words);
    if (!query) return query.error();
    return IndexQuery{connection, table, std::move(query).value()};
}

struct NounRows {
    std::vector<std::int64_t> rows;
    bool newest_only = false;
};

/// The rows that are compared: all, or from the newest record of each kind downwards those of that
/// kind among the next ones. So a customer isn't missed for the newer photos' sake.
Result<NounRows> rows_to_compare(const IndexQuery& query) {
    auto all = query.newest(most_compared + 1, INT64_MAX);
    if (!all) return all.error();
    if (all->size() <= std::size_t{most_compared}) return NounRows{std::move(all).value(), false};
    NounRows nouns{{}, true};
    for (const SearchedKind& searched : searched_kinds()) {
        if (searched.kind == RecordKind::reading) continue;
        const std::string table(table_of(searched.kind).table);
        const auto newest = query.connection.single(
            QStringLiteral("SELECT max(id) FROM %1").arg(QString::fromStdString(table)));
        if (!newest) return newest.error();
        const auto highest = noun_row({searched.kind, newest->toLongLong()});
        if (newest->isNull() || !highest) continue;
        const auto rows = query.newest(looked_at_for_a_kind, *highest);
        if (!rows) return rows.error();
        for (const std::int64_t row : *rows) {
            const auto record = record_of_noun_row(row);
            if (record && record->kind == searched.kind) nouns.rows.push_back(row);
        }
    }
    return nouns;
}

struct Compared {
    RecordRef record;
    FieldTexts fields;
    double rank = 0.0;
    std::int64_t row = 0;
};

/// The best of the rows, best first, newest first among equals.
Result<std::vector<Compared>> best_of(Connection& connection, const std::vector<std::int64_t>& rows,
                                      const std::vector<QString>& words, int limit) {
    std::map<RecordKind, QStringList> ids;
    for (const std::int64_t row : rows) {
        if (const auto record = record_of_noun_row(row)) {
            ids[record->kind] << QString::number(record->id);
        }
    }
    std::vector<Compared> all;
    for (const auto& [kind, of_kind] : ids) {
        auto records = stored_fields_where(
            connection, kind,
            {QStringLiteral("id IN (%1)").arg(of_kind.join(QLatin1Char(','))), std::nullopt});
        if (!records) return records.error();
        for (auto& [id, fields] : *records) {
            const RecordRef record{kind, id};
            // An index that is behind its records, which `check` tells, must not show what is gone.
            if (!can_be_found(fields)) continue;
            const double rank = rank_of(record, fields, words);
            all.push_back({record, std::move(fields), rank, noun_row(record).value_or(0)});
        }
    }
    std::sort(all.begin(), all.end(), [](const Compared& one, const Compared& other) {
        return one.rank != other.rank ? one.rank > other.rank : one.row > other.row;
    });
    if (all.size() > static_cast<std::size_t>(limit)) all.resize(static_cast<std::size_t>(limit));
    return all;
}

Result<SearchAnswer> search_as_of_now(Connection& connection, const std::vector<QString>& words,
                                      int limit) {
    SearchAnswer answer;
    const auto in_nouns = query_of(connection, QStringLiteral("search_nouns"), words);
    if (!in_nouns) return in_nouns.error();
    const auto rows = rows_to_compare(*in_nouns);
    if (!rows) return rows.error();
    answer.newest_only = rows->newest_only;
    const auto nouns = best_of(connection, rows->rows, words, limit);
    if (!nouns) return nouns.error();
    for (const Compared& noun : *nouns) {
        answer.found.push_back(found_in(noun.record, noun.fields, words));
    }
    const auto in_readings = query_of(connection, QStringLiteral("search_readings"), words);
    if (!in_readings) return in_readings.error();
    const auto readings = in_readings->newest(limit, INT64_MAX);
    if (!readings) return readings.error();
    for (const std::int64_t id : *readings) {
        const auto fields = stored_fields(connection, {RecordKind::reading, id});
        if (!fields) return fields.error();
        if (!can_be_found(*fields)) continue;
        answer.found.push_back(found_in({RecordKind::reading, id}, *fields, words));
    }
    return answer;
}

} // namespace

Result<SearchAnswer> search(ShopFile& shop, const std::string& typed, int limit) {
    const std::vector<QString> words = typed_words(typed);
    if (words.empty() || limit < 1) return SearchAnswer{};
    // As of one moment, so that no record goes between its row in the index and its own.
    auto begun = Transaction::begin(shop.connection(), Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    auto answer = search_as_of_now(shop.connection(), words, limit);
    if (!answer) return answer;
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    return answer;
}

Result<Done> rebuild_search(ShopFile& shop) {
    auto begun = Transaction::begin(shop.connection(), Transaction::Kind::write);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    if (const auto made = remake_search(shop.connection()); !made) return made;
    return transaction.commit();
}

} // namespace rodway
