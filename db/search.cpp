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
#include "db/search_rank.h"

namespace rodway {
namespace {

/// Of more nouns than can be compared, the newest of each kind are taken from so many.
constexpr int looked_at_for_a_kind = 200;
/// So many records are sooner read than the words of the index.
constexpr int sooner_read = 100;

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

/// An index, with the words that are looked for in it.
struct WordsInIndex {
    Connection& connection;
    QString table;
    const std::vector<QString>& words;

    /// The rows that a query finds, newest first.
    [[nodiscard]] Result<std::vector<std::int64_t>> newest(
        const QString& query, int limit, std::int64_t highest_row = INT64_MAX) const {
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

using Records = std::map<std::int64_t, FieldTexts>;

Result<Records> records_with_ids(Connection& connection, RecordKind kind, const QStringList& ids) {
    return stored_fields_where(
        connection, kind,
        {QStringLiteral("id IN (%1)").arg(ids.join(QLatin1Char(','))), std::nullopt});
}

struct Noun {
    RecordRef record;
    FieldTexts fields;
    WordsInRecord words;
    std::int64_t row = 0;
};

/// The nouns of these rows. An index that is behind its records, which `check` tells, must not show
/// what is gone.
Result<std::vector<Noun>> nouns_of(const WordsInIndex& index,
                                   const std::vector<std::int64_t>& rows) {
    std::map<RecordKind, QStringList> ids;
    for (const std::int64_t row : rows) {
        if (const auto record = record_of_noun_row(row)) {
            ids[record->kind] << QString::number(record->id);
        }
    }
    std::vector<Noun> nouns;
    for (const auto& [kind, of_kind] : ids) {
        const auto records = records_with_ids(index.connection, kind, of_kind);
        if (!records) return records.error();
        for (const auto& [id, fields] : *records) {
            const RecordRef record{kind, id};
            if (!can_be_found(fields)) continue;
            const WordsInRecord words = words_in(record, fields, index.words);
            nouns.push_back({record, fields, words, noun_row(record).value_or(0)});
        }
    }
    return nouns;
}

/// From the newest record of each kind downwards, those of that kind among the next rows. So a
/// customer isn't missed for the newer photos' sake.
Result<std::vector<std::int64_t>> newest_of_each_kind(const WordsInIndex& index,
                                                      const QString& query) {
    std::vector<std::int64_t> all;
    for (const SearchedKind& searched : searched_kinds()) {
        if (searched.kind == RecordKind::reading) continue;
        const std::string table(table_of(searched.kind).table);
        const auto newest = index.connection.single(
            QStringLiteral("SELECT max(id) FROM %1").arg(QString::fromStdString(table)));
        if (!newest) return newest.error();
        const auto highest = noun_row({searched.kind, newest->toLongLong()});
        if (newest->isNull() || !highest) continue;
        const auto rows = index.newest(query, looked_at_for_a_kind, *highest);
        if (!rows) return rows.error();
        for (const std::int64_t row : *rows) {
            const auto record = record_of_noun_row(row);
            if (record && record->kind == searched.kind) all.push_back(row);
        }
    }
    return all;
}

struct Nouns {
    std::vector<Noun> all;
    bool newest_only = false;
};

Result<Nouns> nouns_to_compare(const WordsInIndex& index) {
    const RoughQuery rough = rough_query(index.words);
    if (!rough.exact && !rough.expression.isEmpty()) {
        const auto rows = index.newest(rough.expression, sooner_read + 1);
        if (!rows) return rows.error();
        if (rows->size() <= std::size_t{sooner_read}) {
            auto found = nouns_of(index, *rows);
            if (!found) return found.error();
            Nouns nouns{std::move(found).value(), false};
            std::erase_if(nouns.all, [](const Noun& noun) { return !noun.words.all; });
            return nouns;
        }
    }
    const auto query = rough.exact ? Result(rough.expression)
                                   : match_expression(index.connection, index.table, index.words);
    if (!query) return query.error();
    auto rows = index.newest(*query, most_compared + 1);
    if (!rows) return rows.error();
    const bool newest_only = rows->size() > std::size_t{most_compared};
    if (newest_only) rows = newest_of_each_kind(index, *query);
    if (!rows) return rows.error();
    auto nouns = nouns_of(index, *rows);
    if (!nouns) return nouns.error();
    return Nouns{std::move(nouns).value(), newest_only};
}

/// The best nouns, best first, newest first among equals.
void keep_best(std::vector<Noun>& nouns, int limit) {
    std::sort(nouns.begin(), nouns.end(), [](const Noun& one, const Noun& other) {
        return one.words.rank != other.words.rank ? one.words.rank > other.words.rank
                                                  : one.row > other.row;
    });
    if (nouns.size() > static_cast<std::size_t>(limit)) {
        nouns.resize(static_cast<std::size_t>(limit));
    }
}

/// The readings of these rows, newest first, up to `limit`.
Result<std::vector<Found>> readings_of(const WordsInIndex& index,
                                       const std::vector<std::int64_t>& rows, int limit,
                                       bool with_all_words) {
    QStringList ids;
    for (const std::int64_t row : rows) ids << QString::number(row);
    const auto records = records_with_ids(index.connection, RecordKind::reading, ids);
    if (!records) return records.error();
    std::vector<Found> readings;
    for (auto at = records->rbegin(); at != records->rend(); ++at) {
        if (readings.size() == static_cast<std::size_t>(limit)) break;
        const RecordRef record{RecordKind::reading, at->first};
        if (with_all_words && !words_in(record, at->second, index.words).all) continue;
        readings.push_back(found_in(record, at->second, index.words));
    }
    return readings;
}

/// The newest readings that a rough query finds, or all.
Result<std::vector<std::int64_t>> newest_rows(const WordsInIndex& index, const RoughQuery& rough,
                                              int limit) {
    if (!rough.expression.isEmpty()) return index.newest(rough.expression, limit);
    std::vector<std::int64_t> rows;
    const auto read =
        index.connection.each(QStringLiteral("SELECT id FROM readings ORDER BY id DESC LIMIT ?"),
                              {limit}, [&rows](const Row& row) { rows.push_back(row.integer(0)); });
    if (!read) return read.error();
    return rows;
}

Result<std::vector<Found>> newest_readings(const WordsInIndex& index, int limit) {
    const RoughQuery rough = rough_query(index.words);
    if (!rough.exact) {
        // Words that so many have are found among the newest readings; few are found whole.
        const int tried = 4 * std::min(limit, 10'000) + sooner_read;
        const auto rows = newest_rows(index, rough, tried);
        if (!rows) return rows.error();
        auto readings = readings_of(index, *rows, limit, true);
        if (!readings || readings->size() == static_cast<std::size_t>(limit) ||
            rows->size() < static_cast<std::size_t>(tried)) {
            return readings;
        }
    }
    const auto query = rough.exact ? Result(rough.expression)
                                   : match_expression(index.connection, index.table, index.words);
    if (!query) return query.error();
    const auto rows = index.newest(*query, limit);
    if (!rows) return rows.error();
    return readings_of(index, *rows, limit, false);
}

Result<SearchAnswer> search_as_of_now(Connection& connection, const std::vector<QString>& words,
                                      int limit) {
    auto compared = nouns_to_compare({connection, QStringLiteral("search_nouns"), words});
    if (!compared) return compared.error();
    Nouns nouns = std::move(compared).value();
    keep_best(nouns.all, limit);
    SearchAnswer answer{{}, nouns.newest_only};
    for (const Noun& noun : nouns.all) {
        answer.found.push_back(found_in(noun.record, noun.fields, words));
    }
    const auto readings =
        newest_readings({connection, QStringLiteral("search_readings"), words}, limit);
    if (!readings) return readings.error();
    answer.found.insert(answer.found.end(), readings->begin(), readings->end());
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
