#include "db/photo_store.h"

#include "db/connection.h"
#include "db/new_record_edits.h"

namespace rodway {

Result<std::vector<Photo>> photos(ShopFile& shop, std::int64_t build_id) {
    std::vector<Photo> found;
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT id, build_id, stage_id, digest, file_name, caption, added_at"
                       " FROM photos WHERE build_id = ? ORDER BY id"),
        {QVariant::fromValue<qlonglong>(build_id)}, [&found](const Row& row) {
            found.push_back(Photo{row.integer(0), row.integer(1), row.optional_integer(2),
                                  row.text(3), row.text(4), row.optional_text(5), row.text(6)});
        });
    if (!rows) return rows.error();
    return found;
}

std::vector<Edit> edits_to_create(const Photo& photo) {
    return NewRecordEdits({RecordKind::photo, photo.id})
        .set_number("build_id", photo.build_id)
        .set_number("stage_id", photo.stage_id)
        .set("digest", photo.digest)
        .set("file_name", photo.file_name)
        .set("caption", photo.caption)
        .set("added_at", photo.added_at)
        .take();
}

} // namespace rodway
