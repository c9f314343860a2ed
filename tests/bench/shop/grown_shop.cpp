#include "tests/bench/shop/grown_shop.h"

#include <QString>
#include <stdexcept>
#include <utility>
#include <vector>

#include "db/connection.h"
#include "db/search.h"
#include "db/shop_file.h"

namespace rodway::bench {
namespace {

template <typename T>
T taken(Result<T> result) {
    if (!result) throw std::runtime_error(result.error().field + ": " + result.error().value);
    return std::move(result).value();
}

/// Numbers from 1 to "%1" as table n(i).
const QString counted =
    QStringLiteral("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < %1) ");

/// Builds with ten stages of ten steps, then readings and photos; build b has the records from
/// (b - 1) * (records of a build) + 1 on.
std::vector<QString> records_of(const ShopSize& size) {
    const QString at = QStringLiteral("'2026-03-01T12:00:00Z'");
    return {
        counted.arg(size.builds) +
            QStringLiteral("INSERT INTO builds (id, name, customer, engine, archived)"
                           " SELECT i, 'Build ' || i, 'Arn' || char(97 + i % 26,"
                           " 97 + i / 26 % 26, 97 + i / 676) || ' & Sons', 'inline six, 261',"
                           " CASE WHEN i > %1 THEN NULL ELSE %2 END FROM n")
                .arg(size.builds - size.in_hand)
                .arg(at),
        counted.arg(size.builds * 10) +
            QStringLiteral("INSERT INTO stages (id, build_id, ordinal, title)"
                           " SELECT i, (i - 1) / 10 + 1, i % 10, 'Stage ' || (i % 10) FROM n"),
        counted.arg(size.builds * 100) +
            QStringLiteral("INSERT INTO steps (id, stage_id, ordinal, title, ticked_by, ticked_at)"
                           " SELECT i, (i - 1) / 10 + 1, i % 10, 'Step ' || (i % 10), 'MH', %1"
                           " FROM n")
                .arg(at),
        counted.arg(qint64(size.builds) * size.readings_of_a_build) +
            QStringLiteral("INSERT INTO readings (id, build_id, quantity, position, text, unit,"
                           " status, taken_by, taken_at) SELECT i, (i - 1) / %1 + 1,"
                           " 'main_clearance', 'main ' || (i % 7 + 1),"
                           " '.00' || (i % 90 + 10), 'in', 'measured', 'MH', %2 FROM n")
                .arg(size.readings_of_a_build)
                .arg(at),
        counted.arg(size.builds * size.photos_of_a_build) +
            QStringLiteral("INSERT INTO photos (id, build_id, digest, file_name, caption, added_at)"
                           " SELECT i, (i - 1) / %1 + 1, printf('%064x', i), 'photo ' || i"
                           " || '.jpg', 'bearing ' || i, %2 FROM n")
                .arg(size.photos_of_a_build)
                .arg(at),
        counted.arg(size.builds * 3) +
            QStringLiteral("INSERT INTO notes (id, build_id, text, written_by, written_at)"
                           " SELECT i, (i - 1) / 3 + 1, 'thread ' || i || ' was chased and looked"
                           " good', 'MH', %1 FROM n")
                .arg(at),
    };
}

/// One act for each build with its plan, then ten readings to an act: act numbers rise with ids.
std::vector<QString> history_of(const ShopSize& size) {
    constexpr int to_an_act = 10;
    const qint64 first = size.builds;
    const qint64 readings = qint64(size.builds) * size.readings_of_a_build;
    const qint64 acts = first + (readings + to_an_act - 1) / to_an_act;
    const QString reading_act =
        QStringLiteral("(%1 + (r.id - 1) / %2 + 1)").arg(first).arg(to_an_act);
    return {
        counted.arg(acts) +
            QStringLiteral("INSERT INTO acts (number, who, when_utc, salt)"
                           " SELECT i, 'MH', '2026-03-01T12:00:00Z', randomblob(16) FROM n"),
        QStringLiteral("INSERT INTO edits (act, ordinal, build_id, record_kind, record_id, field,"
                       " after) SELECT b.id, f.k, b.id, 'build', b.id, f.field,"
                       " CASE f.k WHEN 0 THEN '1' WHEN 1 THEN b.name WHEN 2 THEN b.customer"
                       " ELSE b.engine END FROM builds b CROSS JOIN (SELECT 0 AS k, 'exists' AS"
                       " field UNION ALL SELECT 1, 'name' UNION ALL SELECT 2, 'customer'"
                       " UNION ALL SELECT 3, 'engine') f"),
        QStringLiteral(
            "INSERT INTO edits (act, ordinal, build_id, record_kind, record_id, field, after)"
            " SELECT %1, (r.id - 1) %% %2 * 9 + f.k, r.build_id, 'reading', r.id, f.field,"
            " CASE f.k WHEN 0 THEN '1' WHEN 1 THEN r.build_id WHEN 2 THEN r.quantity"
            " WHEN 3 THEN r.position WHEN 4 THEN r.text WHEN 5 THEN r.unit WHEN 6 THEN r.status"
            " WHEN 7 THEN r.taken_by ELSE r.taken_at END"
            " FROM readings r CROSS JOIN (SELECT 0 AS k, 'exists' AS field"
            " UNION ALL SELECT 1, 'build_id' UNION ALL SELECT 2, 'quantity'"
            " UNION ALL SELECT 3, 'position' UNION ALL SELECT 4, 'text' UNION ALL SELECT 5, 'unit'"
            " UNION ALL SELECT 6, 'status' UNION ALL SELECT 7, 'taken_by'"
            " UNION ALL SELECT 8, 'taken_at') f")
            .arg(reading_act)
            .arg(to_an_act)
            .replace(QStringLiteral("%%"), QStringLiteral("%")),
        QStringLiteral("INSERT INTO history_links (build_id, act, digest)"
                       " SELECT build_id, act, randomblob(32) FROM edits GROUP BY build_id, act"),
    };
}

} // namespace

void make_grown_shop(const std::string& path, const ShopSize& size) {
    ShopFile shop = taken(ShopFile::create(path));
    Connection& connection = shop.connection();
    taken(connection.run(QStringLiteral("PRAGMA synchronous = OFF")));
    taken(connection.run(QStringLiteral("PRAGMA foreign_keys = OFF")));
    for (const auto& statements : {records_of(size), history_of(size)}) {
        for (const QString& sql : statements) taken(connection.run(sql));
    }
    taken(rebuild_search(shop));
    taken(connection.run(QStringLiteral("PRAGMA wal_checkpoint(TRUNCATE)")));
}

} // namespace rodway::bench
