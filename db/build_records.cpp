#include "db/build_records.h"

#include <limits>

#include "db/connection.h"
#include "db/history_replay.h"
#include "db/record_rows.h"
#include "db/record_tables.h"

namespace rodway {

Result<std::map<std::int64_t, FieldTexts>> rows_of_kind(ShopFile& shop, RecordKind kind,
                                                        std::int64_t build_id) {
    return stored_fields_of_build(shop.connection(), kind, build_id);
}

Result<RecordTexts> records_of_build(ShopFile& shop, std::int64_t build_id) {
    RecordTexts all;
    for (const RecordTable& table : record_tables()) {
        const auto rows = rows_of_kind(shop, table.kind, build_id);
        if (!rows) return rows.error();
        for (const auto& [id, texts] : *rows) all.emplace(RecordRef{table.kind, id}, texts);
    }
    return all;
}

Result<RecordTexts> records_as_of_act(ShopFile& shop, std::int64_t build_id, std::int64_t act) {
    auto replay = replay_history(shop.connection(), build_id, act,
                                 [](const FieldRef&) { /* `check` tells */ });
    if (!replay) return replay.error();
    return std::move(replay).value().records;
}

Result<std::int64_t> act_as_of(ShopFile& shop, std::int64_t build_id, const std::string& when_utc) {
    std::int64_t last = 0;
    bool later = false;
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT a.number, a.when_utc FROM history_links l JOIN acts a"
                       " ON a.number = l.act WHERE l.build_id = ? ORDER BY l.act"),
        {QVariant::fromValue<qlonglong>(build_id)}, [&](const Row& row) {
            later = later || row.text(1) > when_utc;
            if (!later) last = row.integer(0);
        });
    if (!rows) return rows.error();
    return last;
}

} // namespace rodway
