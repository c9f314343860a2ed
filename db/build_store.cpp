#include "db/build_store.h"

#include "db/record_rows.h"

namespace rodway {
namespace {

Result<std::vector<Build>> select_builds(ShopFile& shop, const Selection& selection) {
    const auto rows = stored_fields_where(shop.connection(), RecordKind::build, selection);
    if (!rows) return rows.error();
    return records_from<Build>(*rows);
}

} // namespace

Result<std::vector<Build>> load_builds(ShopFile& shop) {
    return select_builds(shop, {QStringLiteral("1"), std::nullopt});
}

Result<std::vector<Build>> builds_in_hand(ShopFile& shop) {
    return select_builds(shop, {QStringLiteral("archived IS NULL"), std::nullopt});
}

Result<Build> load_build(ShopFile& shop, std::int64_t id) {
    const auto builds = select_builds(shop, {QStringLiteral("id = ?"), id});
    if (!builds) return builds.error();
    if (builds->empty()) {
        return Error{ErrorCode::no_such_record, "build", std::to_string(id), {}, {}, {}};
    }
    return builds->front();
}

} // namespace rodway
