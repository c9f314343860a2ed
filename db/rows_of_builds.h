#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <QStringList>
#include <vector>

#include "core/base/result.h"
#include "db/connection.h"
#include "db/record_fields.h"
#include "db/record_rows.h"

namespace rodway {

/// Ids for an SQL list.
[[nodiscard]] inline QString id_list(const std::vector<std::int64_t>& ids) {
    QStringList texts;
    for (const std::int64_t id : ids) texts << QString::number(id);
    return texts.join(QLatin1Char(','));
}

/// Records by id for which `condition` holds: SQL without values.
template <typename Record>
Result<std::vector<Record>> records_where(Connection& connection, const QString& condition) {
    const auto rows = stored_fields_where(connection, RecordShape<Record>::kind, {condition, {}});
    if (!rows) return rows.error();
    return records_from<Record>(*rows);
}

/// Ids that a query answers.
[[nodiscard]] inline Result<std::vector<std::int64_t>> selected_ids(Connection& connection,
                                                                    const QString& sql,
                                                                    const QVariantList& values) {
    std::vector<std::int64_t> ids;
    const auto rows =
        connection.each(sql, values, [&ids](const Row& row) { ids.push_back(row.integer(0)); });
    if (!rows) return rows.error();
    return ids;
}

/// A part that is ordered or needs to be and isn't there, as `is_to_come` of `part_wait`, and in
/// whose place no other stands; in SQL, of the table called `p`.
inline const QString part_to_come = QStringLiteral(
    "p.received IS NULL AND p.measured IS NULL AND p.fitted IS NULL AND p.returned IS NULL"
    " AND p.failed IS NULL AND NOT EXISTS (SELECT 1 FROM parts o WHERE o.replaces_id = p.id"
    " AND o.id <> p.id AND o.returned IS NULL)");

} // namespace rodway
