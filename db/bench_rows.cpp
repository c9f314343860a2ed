#include "db/bench_rows.h"

#include <algorithm>
#include <limits>
#include <map>

#include "core/build/cure_state.h"
#include "core/build/part_wait.h"
#include "db/connection.h"
#include "db/rows_of_builds.h"

namespace rodway {
namespace {

using Rows = std::map<std::int64_t, BenchRow*>;

/// As `CureState::is_running`: not ended, and its full time isn't known or hasn't come. Two values:
/// both are the present.
const QString running_cure = QStringLiteral(
    "c.ended IS NULL AND (c.full_minutes IS NULL"
    " OR CAST(strftime('%s', c.applied_at) AS INTEGER)"
    " + 60 * max(c.full_minutes, coalesce(c.handling_minutes, 0))"
    " > CAST(strftime('%s', ?) AS INTEGER))");

/// What a build called `b` must be, and the values of it.
struct Condition {
    QString sql;
    QVariantList values;
};

Condition condition_of(const BenchRequest& request) {
    const QString in_hand = QStringLiteral("b.archived IS NULL");
    const QString has = in_hand + QStringLiteral(" AND EXISTS (SELECT 1 FROM %1)");
    switch (request.filter) {
        case BenchFilter::in_hand:
            return {in_hand, {}};
        case BenchFilter::put_away:
            return {QStringLiteral("b.archived IS NOT NULL"), {}};
        case BenchFilter::waits_for_part:
            return {has.arg(QStringLiteral("parts p WHERE p.build_id = b.id AND ") + part_to_come),
                    {}};
        case BenchFilter::waits_for_cure:
            return {has.arg(QStringLiteral("cures c WHERE c.build_id = b.id AND ") + running_cure),
                    {QString::fromStdString(request.now_utc)}};
        case BenchFilter::waits_for_customer:
            return {has.arg(QStringLiteral(
                        "approvals a WHERE a.build_id = b.id AND a.answer = 'asked'")),
                    {}};
    }
    return {};
}

QString order_of(BenchOrder order) {
    return order == BenchOrder::promised
               ? QStringLiteral("b.promised IS NULL, b.promised, b.id")
               : QStringLiteral(
                     "(SELECT max(l.act) FROM history_links l WHERE l.build_id = b.id)"
                     " DESC, b.id DESC");
}

QStringList words_of(const std::string& text) {
    return QString::fromStdString(text).toCaseFolded().simplified().split(QLatin1Char(' '),
                                                                          Qt::SkipEmptyParts);
}

bool has_all(const Row& row, const QStringList& words) {
    QString texts;
    for (int column = 1; column <= 4; ++column) {
        texts += QString::fromStdString(row.text(column)).toCaseFolded() + QLatin1Char('\n');
    }
    return std::all_of(words.begin(), words.end(),
                       [&](const QString& word) { return texts.contains(word); });
}

/// The builds of one page in their order, and how many there are on all.
struct PageIds {
    std::vector<std::int64_t> ids;
    int total = 0;
};

Result<PageIds> page_by_words(Connection& connection, const BenchRequest& request,
                              const Condition& condition, const QStringList& words) {
    PageIds page;
    const auto rows = connection.each(
        QStringLiteral("SELECT b.id, b.name, b.customer, b.engine, b.job_number FROM builds b"
                       " WHERE %1 ORDER BY %2")
            .arg(condition.sql, order_of(request.order)),
        condition.values, [&](const Row& row) {
            if (!has_all(row, words)) return;
            const bool on_page =
                page.total >= request.offset && page.total - request.offset < request.limit;
            if (on_page) page.ids.push_back(row.integer(0));
            ++page.total;
        });
    if (!rows) return rows.error();
    return page;
}

Result<PageIds> page_ids(Connection& connection, const BenchRequest& request) {
    const Condition condition = condition_of(request);
    if (const QStringList words = words_of(request.text); !words.isEmpty()) {
        return page_by_words(connection, request, condition, words);
    }
    const auto total = connection.single(
        QStringLiteral("SELECT count(*) FROM builds b WHERE %1").arg(condition.sql),
        condition.values);
    if (!total) return total.error();
    auto ids = selected_ids(
        connection,
        QStringLiteral("SELECT b.id FROM builds b WHERE %1 ORDER BY %2 LIMIT ? OFFSET ?")
            .arg(condition.sql, order_of(request.order)),
        condition.values + QVariantList{request.limit, request.offset});
    if (!ids) return ids.error();
    return PageIds{std::move(ids).value(), total->toInt()};
}

Result<Done> read_builds(Connection& connection, const QString& ids, const Rows& rows) {
    auto builds = records_where<Build>(connection, QStringLiteral("id IN (%1)").arg(ids));
    if (!builds) return builds.error();
    for (const Build& build : *builds) rows.at(build.id)->build = build;
    return Done{};
}

Result<Done> read_rails(Connection& connection, const QString& ids, const Rows& rows) {
    std::map<std::int64_t, BenchStage*> stages;
    const auto found = connection.each(
        QStringLiteral(
            "SELECT s.build_id, s.id, s.title, EXISTS (SELECT 1 FROM sign_offs o WHERE o.stage_id ="
            " s.id AND o.gate_id IS NULL AND o.withdrawn_at IS NULL), EXISTS (SELECT 1 FROM gates g"
            " WHERE g.stage_id = s.id) FROM stages s"
            " WHERE s.build_id IN (%1) ORDER BY s.build_id, s.ordinal, s.id")
            .arg(ids),
        {}, [&](const Row& row) {
            rows.at(row.integer(0))
                ->rail.push_back(
                    {row.integer(1), row.text(2), 0, 0, row.integer(3) != 0, row.integer(4) != 0});
        });
    if (!found) return found.error();
    for (const auto& [id, row] : rows) {
        for (BenchStage& stage : row->rail) stages[stage.stage_id] = &stage;
    }
    return connection.each(
        QStringLiteral("SELECT s.build_id, s.id, t.title, t.ticked_at IS NOT NULL OR t.not_needed"
                       " IS NOT NULL FROM stages s JOIN steps t ON t.stage_id = s.id"
                       " WHERE s.build_id IN (%1) ORDER BY s.build_id, s.ordinal, s.id, t.ordinal,"
                       " t.id")
            .arg(ids),
        {}, [&](const Row& row) {
            BenchStage& stage = *stages.at(row.integer(1));
            BenchRow& build = *rows.at(row.integer(0));
            const bool done = row.integer(3) != 0;
            ++stage.steps;
            stage.steps_done += done ? 1 : 0;
            if (!done && !build.next_step) {
                build.next_step = row.text(2);
                build.next_stage = stage.title;
            }
        });
}

Result<Done> read_parts(Connection& connection, const QString& ids, const BenchRequest& request,
                        const Rows& rows) {
    const auto parts =
        selected_ids(connection,
                     QStringLiteral("SELECT p.id FROM parts p WHERE p.build_id IN (%1) AND %2")
                         .arg(ids, part_to_come),
                     {});
    if (!parts) return parts.error();
    const auto records =
        records_where<PartRecord>(connection, QStringLiteral("id IN (%1)").arg(id_list(*parts)));
    if (!records) return records.error();
    for (const PartRecord& part : *records) {
        BenchRow& build = *rows.at(part.build_id);
        ++build.parts_to_come;
        const bool overdue = part_wait(part, request.today) == PartWait::overdue;
        build.parts_overdue += overdue ? 1 : 0;
        if (part.promised && (!build.next_part || *part.promised < *build.next_part)) {
            build.next_part = part.promised;
        }
    }
    return Done{};
}

Result<Done> read_cures(Connection& connection, const QString& ids, const BenchRequest& request,
                        const Rows& rows) {
    const auto cures = records_where<Cure>(
        connection, QStringLiteral("build_id IN (%1) AND ended IS NULL").arg(ids));
    if (!cures) return cures.error();
    std::map<std::int64_t, bool> all_known;
    for (const Cure& cure : *cures) {
        const CureState state = cure_state(cure, request.now_utc);
        if (!state.is_running()) continue;
        BenchRow& build = *rows.at(cure.build_id);
        ++build.cures_running;
        bool& known = all_known.try_emplace(cure.build_id, true).first->second;
        known = known && state.full_at;
        if (known) {
            build.cured_at = std::max(build.cured_at.value_or(std::string()), *state.full_at);
        } else {
            build.cured_at.reset();
        }
    }
    return Done{};
}

Result<Done> read_counts(Connection& connection, const QString& ids, const Rows& rows) {
    const auto items = connection.each(
        QStringLiteral("SELECT build_id, count(*) FROM open_items WHERE build_id IN (%1)"
                       " AND closed_at IS NULL GROUP BY build_id")
            .arg(ids),
        {}, [&](const Row& row) {
            rows.at(row.integer(0))->open_items = static_cast<int>(row.integer(1));
        });
    if (!items) return items;
    const auto questions = connection.each(
        QStringLiteral("SELECT build_id, count(*) FROM approvals WHERE build_id IN (%1)"
                       " AND answer = 'asked' GROUP BY build_id")
            .arg(ids),
        {}, [&](const Row& row) {
            rows.at(row.integer(0))->questions = static_cast<int>(row.integer(1));
        });
    if (!questions) return questions;
    return connection.each(
        QStringLiteral(
            "SELECT b.id, a.when_utc, a.who, a.number FROM builds b JOIN acts a ON a.number ="
            " (SELECT max(l.act) FROM history_links l WHERE l.build_id = b.id)"
            " WHERE b.id IN (%1)")
            .arg(ids),
        {}, [&](const Row& row) {
            BenchRow& build = *rows.at(row.integer(0));
            build.changed_at = row.text(1);
            build.changed_by = row.text(2);
            build.newest_act = row.integer(3);
        });
}

Error outside(const char* field, int value, int low) {
    Error error{ErrorCode::out_of_range, field, std::to_string(value), {}, {}, {}};
    error.limits = Limits{double(low), double(std::numeric_limits<int>::max()), {}};
    return error;
}

} // namespace

Result<BenchRows> bench_page(ShopFile& shop, const BenchRequest& request) {
    if (request.offset < 0) return outside("offset", request.offset, 0);
    if (request.limit < 1) return outside("limit", request.limit, 1);
    Connection& connection = shop.connection();
    auto begun = Transaction::begin(connection, Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    const auto found = page_ids(connection, request);
    if (!found) return found.error();
    const auto newest = connection.single(
        QStringLiteral("SELECT coalesce(max(act), 0) FROM history_links WHERE build_id = 0"));
    if (!newest) return newest.error();
    BenchRows page{std::vector<BenchRow>(found->ids.size()), found->total, newest->toLongLong()};
    Rows rows;
    for (std::size_t which = 0; which < found->ids.size(); ++which) {
        rows[found->ids[which]] = &page.rows[which];
    }
    const QString ids = id_list(found->ids);
    auto read = read_builds(connection, ids, rows);
    if (read) read = read_rails(connection, ids, rows);
    if (read) read = read_parts(connection, ids, request, rows);
    if (read) read = read_cures(connection, ids, request, rows);
    if (read) read = read_counts(connection, ids, rows);
    if (!read) return read.error();
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    return page;
}

} // namespace rodway
