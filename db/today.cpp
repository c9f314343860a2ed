#include "db/today.h"

#include "db/connection.h"
#include "db/rows_of_builds.h"

namespace rodway {
namespace {

/// Records of one kind that a query picks.
template <typename Record>
Result<Done> read(Connection& connection, const QString& sql, const QVariantList& values,
                  std::vector<Record>& records) {
    const auto ids = selected_ids(connection, sql, values);
    if (!ids) return ids.error();
    auto found = records_where<Record>(connection, QStringLiteral("id IN (%1)").arg(id_list(*ids)));
    if (!found) return found.error();
    records = std::move(found).value();
    return Done{};
}

QString of_build_in_hand(const char* table, const QString& condition) {
    return QStringLiteral(
               "SELECT p.id FROM builds b JOIN %1 p ON p.build_id = b.id"
               " WHERE b.archived IS NULL AND %2")
        .arg(QLatin1String(table), condition);
}

} // namespace

Result<TodayFacts> load_today_facts(ShopFile& shop, const TodayRequest& request) {
    const auto today = day_number(request.day.day);
    if (!today) return Error{ErrorCode::not_a_date, "day", request.day.day, {}, {}, {}};
    const QString day = QString::fromStdString(request.day.day);
    const QString near = QString::fromStdString(day_text(*today + request.near_days));
    const QString lately = QString::fromStdString(day_text(*today - request.service_days));
    Connection& connection = shop.connection();
    auto begun = Transaction::begin(connection, Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    TodayFacts facts;
    auto done = read(connection,
                     QStringLiteral("SELECT id FROM builds WHERE archived IS NULL"
                                    " AND promised <= ?"),
                     {near}, facts.builds);
    if (done) {
        done = read(connection, of_build_in_hand("cures", QStringLiteral("p.ended IS NULL")), {},
                    facts.cures);
    }
    if (done) {
        done =
            read(connection,
                 of_build_in_hand("parts", QStringLiteral("p.promised <= ? AND ") + part_to_come),
                 {day}, facts.parts);
    }
    if (done) {
        done = read(connection,
                    QStringLiteral("SELECT id FROM parts WHERE kept_until <= ?"
                                   " AND returned IS NULL"),
                    {day}, facts.kept);
    }
    if (done) {
        done = read(
            connection,
            of_build_in_hand("open_items", QStringLiteral("p.closed_at IS NULL AND p.due <= ?")),
            {day}, facts.open_items);
    }
    if (done) {
        done = read(connection,
                    QStringLiteral("SELECT h.id FROM hand_offs h WHERE h.service_dates IS NOT NULL"
                                   " AND h.id = (SELECT max(o.id) FROM hand_offs o"
                                   " WHERE o.build_id = h.build_id)"),
                    {}, facts.hand_offs);
    }
    if (done) {
        done =
            read(connection, QStringLiteral("SELECT id FROM visits WHERE visited BETWEEN ? AND ?"),
                 {lately, day}, facts.visits);
    }
    if (!done) return done.error();
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    return facts;
}

} // namespace rodway
