#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// Records with their fields, owners before what they own.
using RecordTexts = std::map<RecordRef, FieldTexts, ByKindAndId>;

/// Stands for the records that belong to no build: customers, people, instruments, ...
inline constexpr std::int64_t shop_wide = 0;

/// All that the shop file holds of one build now, the build's own record too; with `shop_wide`, all
/// that belongs to none.
Result<RecordTexts> records_of_build(ShopFile& shop, std::int64_t build_id);

/// Those of one kind only, by id.
Result<std::map<std::int64_t, FieldTexts>> rows_of_kind(ShopFile& shop, RecordKind kind,
                                                        std::int64_t build_id);

/// The same as it stood at the end of an act, from the history alone. Texts that were erased since
/// are absent.
Result<RecordTexts> records_as_of_act(ShopFile& shop, std::int64_t build_id, std::int64_t act);

/// The last act of a build up to a time, UTC "2026-03-01T14:05:00Z"; 0 before its first. Where the
/// computer's clock was set back between two acts, the earlier act counts from the time it states,
/// and the later one not before it.
Result<std::int64_t> act_as_of(ShopFile& shop, std::int64_t build_id, const std::string& when_utc);

/// The records of one kind among them, by id.
template <typename Record>
[[nodiscard]] Result<std::vector<Record>> records_in(const RecordTexts& texts) {
    std::map<std::int64_t, FieldTexts> rows;
    for (const auto& [ref, fields] : texts) {
        if (ref.kind == RecordShape<Record>::kind) rows.emplace(ref.id, fields);
    }
    return records_from<Record>(rows);
}

/// A build's records of one kind, or the shop's with `shop_wide`, by id.
template <typename Record>
Result<std::vector<Record>> load_records(ShopFile& shop, std::int64_t build_id) {
    const auto rows = rows_of_kind(shop, RecordShape<Record>::kind, build_id);
    if (!rows) return rows.error();
    return records_from<Record>(*rows);
}

} // namespace rodway
