#include "db/history.h"

#include "db/build_records.h"
#include "db/connection.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

QVariant number_value(std::int64_t number) {
    return QVariant::fromValue<qlonglong>(number);
}

QVariant word_value(RecordKind kind) {
    const std::string_view word = table_of(kind).word;
    return QString::fromLatin1(word.data(), static_cast<qsizetype>(word.size()));
}

/// Acts with their edits, for the edits that `where` picks.
Result<std::vector<Act>> select_acts(ShopFile& shop, const QString& where,
                                     const QVariantList& values) {
    std::vector<Act> acts;
    std::optional<std::string> unknown_kind;
    const auto take = [&](const Row& row) {
        if (acts.empty() || acts.back().number != row.integer(0)) {
            acts.push_back(
                Act{row.integer(0), row.text(1), row.text(2), row.optional_integer(3), {}});
        }
        const auto kind = record_kind_from(row.text(4));
        if (!kind) {
            unknown_kind = row.text(4);
            return;
        }
        acts.back().edits.push_back(Edit{RecordRef{*kind, row.integer(5)}, row.text(6),
                                         row.optional_text(7), row.optional_text(8),
                                         row.integer(9) != 0});
    };
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT a.number, a.who, a.when_utc, a.undoes, e.record_kind, e.record_id,"
                       " e.field, e.before, e.after, e.erased_digest IS NOT NULL FROM edits e JOIN "
                       "acts a ON a.number = e.act"
                       " WHERE %1 ORDER BY e.act, e.ordinal")
            .arg(where),
        values, take);
    if (!rows) return rows.error();
    if (unknown_kind) {
        return Error{ErrorCode::damaged_file, shop.path(), *unknown_kind, {}, {}, {}};
    }
    return acts;
}

} // namespace

Result<std::int64_t> last_act(ShopFile& shop) {
    const auto number =
        shop.connection().single(QStringLiteral("SELECT coalesce(max(number), 0) FROM acts"));
    if (!number) return number.error();
    return std::int64_t{number->toLongLong()};
}

Result<std::vector<Act>> acts_since(ShopFile& shop, std::int64_t number) {
    return select_acts(shop, QStringLiteral("e.act > ?"), {number_value(number)});
}

Result<Act> load_act(ShopFile& shop, std::int64_t number) {
    const auto acts = select_acts(shop, QStringLiteral("e.act = ?"), {number_value(number)});
    if (!acts) return acts.error();
    if (acts->empty()) {
        return Error{ErrorCode::no_such_record, "act", std::to_string(number), {}, {}, {}};
    }
    return acts->front();
}

Result<std::vector<Act>> history(ShopFile& shop, RecordRef record) {
    return select_acts(shop, QStringLiteral("e.record_kind = ? AND e.record_id = ?"),
                       {word_value(record.kind), number_value(record.id)});
}

Result<std::vector<Act>> history_of_build(ShopFile& shop, std::int64_t build_id) {
    // Edits of the shop's own records name no build.
    const bool of_the_shop = build_id == shop_wide;
    return select_acts(shop,
                       QStringLiteral("e.act IN (SELECT act FROM history_links WHERE build_id = ?)"
                                      " AND e.build_id IS ?"),
                       {number_value(build_id), of_the_shop ? QVariant() : number_value(build_id)});
}

Result<std::string> history_head(ShopFile& shop, std::int64_t build_id) {
    const auto link = shop.connection().single(
        QStringLiteral("SELECT digest FROM history_links WHERE build_id = ?"
                       " ORDER BY act DESC LIMIT 1"),
        {number_value(build_id)});
    if (!link) return link.error();
    return link->toByteArray().toHex().toStdString();
}

Result<std::optional<std::int64_t>> act_of_head(ShopFile& shop, std::int64_t build_id,
                                                const std::string& head) {
    const auto act = shop.connection().single(
        QStringLiteral("SELECT act FROM history_links WHERE build_id = ? AND digest = ?"),
        {number_value(build_id), QByteArray::fromHex(QByteArray::fromStdString(head))});
    if (!act) return act.error();
    if (!act->isValid()) return std::optional<std::int64_t>();
    return std::optional<std::int64_t>(act->toLongLong());
}

Result<std::optional<std::int64_t>> undone_by(ShopFile& shop, std::int64_t act) {
    std::vector<std::int64_t> undoing;
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT number FROM acts WHERE undoes = ? ORDER BY number DESC"),
        {number_value(act)}, [&](const Row& row) { undoing.push_back(row.integer(0)); });
    if (!rows) return rows.error();
    for (const std::int64_t number : undoing) {
        // An act is older than the one that undoes it (a rule of the table): this comes to an end.
        const auto taken_back = undone_by(shop, number);
        if (!taken_back) return taken_back.error();
        if (!taken_back->has_value()) return std::optional(number);
    }
    return std::optional<std::int64_t>();
}

Result<std::int64_t> new_id(ShopFile& shop, RecordKind kind) {
    const std::string_view table = table_of(kind).table;
    const auto highest = shop.connection().single(
        QStringLiteral("SELECT max(coalesce((SELECT max(id) FROM %1), 0),"
                       " coalesce((SELECT max(record_id) FROM edits WHERE record_kind = ?), 0))")
            .arg(QString::fromLatin1(table.data(), static_cast<qsizetype>(table.size()))),
        {word_value(kind)});
    if (!highest) return highest.error();
    return std::int64_t{highest->toLongLong() + 1};
}

} // namespace rodway
