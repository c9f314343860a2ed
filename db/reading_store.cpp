#include "db/reading_store.h"

#include "db/connection.h"
#include "db/new_record_edits.h"
#include "db/reading_status_text.h"

namespace rodway {

Result<std::vector<Reading>> readings(ShopFile& shop, std::int64_t build_id) {
    std::vector<Reading> found;
    std::optional<std::string> unknown_status;
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT id, build_id, set_up_id, quantity, position, text, unit, status,"
                       " taken_by, taken_at FROM readings WHERE build_id = ? ORDER BY id"),
        {QVariant::fromValue<qlonglong>(build_id)}, [&](const Row& row) {
            const auto status = reading_status_from(row.text(7));
            if (!status) {
                unknown_status = row.text(7);
                return;
            }
            found.push_back(Reading{row.integer(0), row.integer(1), row.optional_integer(2),
                                    row.text(3), row.text(4), row.text(5), row.text(6), *status,
                                    row.text(8), row.text(9)});
        });
    if (!rows) return rows.error();
    if (unknown_status) {
        return Error{ErrorCode::damaged_file, shop.path(), *unknown_status,
                     reading_status_words(),  {},          {}};
    }
    return found;
}

std::vector<Edit> edits_to_create(const Reading& reading) {
    return NewRecordEdits({RecordKind::reading, reading.id})
        .set_number("build_id", reading.build_id)
        .set_number("set_up_id", reading.set_up_id)
        .set("quantity", reading.quantity)
        .set("position", reading.position)
        .set("text", reading.text)
        .set("unit", reading.unit)
        .set("status", to_edit_text(reading.status))
        .set("taken_by", reading.taken_by)
        .set("taken_at", reading.taken_at)
        .take();
}

} // namespace rodway
