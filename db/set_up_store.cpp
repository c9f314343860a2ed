#include "db/set_up_store.h"

#include "db/connection.h"
#include "db/typed_value_text.h"

namespace rodway {
namespace {

/// One query for set-ups and fields together, so that both are of one moment.
Result<std::vector<SetUpRecord>> select_set_ups(ShopFile& shop, const QString& where,
                                                std::int64_t id) {
    std::vector<SetUpRecord> set_ups;
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT s.id, s.build_id, s.name, f.path, f.text, f.unit FROM set_ups s"
                       " LEFT JOIN set_up_fields f ON f.set_up_id = s.id WHERE %1 ORDER BY s.id")
            .arg(where),
        {QVariant::fromValue<qlonglong>(id)}, [&set_ups](const Row& row) {
            if (set_ups.empty() || set_ups.back().id != row.integer(0)) {
                set_ups.push_back(SetUpRecord{row.integer(0), row.integer(1), row.text(2), {}});
            }
            const auto path = row.optional_text(3);
            if (path) set_ups.back().fields[*path] = TypedValue{row.text(4), row.text(5)};
        });
    if (!rows) return rows.error();
    return set_ups;
}

} // namespace

Result<std::vector<SetUpRecord>> load_set_ups(ShopFile& shop, std::int64_t build_id) {
    return select_set_ups(shop, QStringLiteral("s.build_id = ?"), build_id);
}

Result<std::optional<SetUpRecord>> newest_set_up(ShopFile& shop, std::int64_t build_id) {
    const auto set_ups = select_set_ups(
        shop, QStringLiteral("s.id = (SELECT max(id) FROM set_ups WHERE build_id = ?)"), build_id);
    if (!set_ups) return set_ups.error();
    if (set_ups->empty()) return std::optional<SetUpRecord>();
    return std::optional(set_ups->front());
}

Result<SetUpRecord> load_set_up(ShopFile& shop, std::int64_t id) {
    const auto set_ups = select_set_ups(shop, QStringLiteral("s.id = ?"), id);
    if (!set_ups) return set_ups.error();
    if (set_ups->empty()) {
        return Error{ErrorCode::no_such_record, "set_up", std::to_string(id), {}, {}, {}};
    }
    return set_ups->front();
}

Edit edit_to_change(const SetUpRecord& set_up, const std::string& path,
                    const std::optional<TypedValue>& after) {
    Edit edit{{RecordKind::set_up, set_up.id}, path, std::nullopt, std::nullopt};
    const auto found = set_up.fields.find(path);
    if (found != set_up.fields.end()) edit.before = to_edit_text(found->second);
    if (after) edit.after = to_edit_text(*after);
    return edit;
}

} // namespace rodway
