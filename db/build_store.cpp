#include "db/build_store.h"

#include "db/connection.h"
#include "db/new_record_edits.h"

namespace rodway {
namespace {

Result<std::vector<Build>> select_builds(ShopFile& shop, const QString& rest,
                                         const QVariantList& values) {
    std::vector<Build> builds;
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT id, name, customer, engine, promised, note, archived FROM builds ") +
            rest,
        values, [&builds](const Row& row) {
            builds.push_back(Build{row.integer(0), row.text(1), row.text(2), row.text(3),
                                   row.optional_text(4), row.optional_text(5),
                                   row.optional_text(6)});
        });
    if (!rows) return rows.error();
    return builds;
}

} // namespace

Result<std::vector<Build>> load_builds(ShopFile& shop) {
    return select_builds(shop, QStringLiteral("ORDER BY id"), {});
}

Result<Build> load_build(ShopFile& shop, std::int64_t id) {
    const auto builds =
        select_builds(shop, QStringLiteral("WHERE id = ?"), {QVariant::fromValue<qlonglong>(id)});
    if (!builds) return builds.error();
    if (builds->empty()) {
        return Error{ErrorCode::no_such_record, "build", std::to_string(id), {}, {}, {}};
    }
    return builds->front();
}

std::vector<Edit> edits_to_create(const Build& build) {
    return NewRecordEdits({RecordKind::build, build.id})
        .set("name", build.name)
        .set("customer", build.customer)
        .set("engine", build.engine)
        .set("promised", build.promised)
        .set("note", build.note)
        .set("archived", build.archived)
        .take();
}

} // namespace rodway
