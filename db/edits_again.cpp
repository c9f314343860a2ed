#include "db/edits_again.h"

#include <map>
#include <string>
#include <utility>

#include "db/history.h"
#include "db/record_rows.h"
#include "db/record_tables.h"

namespace rodway {

Result<std::vector<Edit>> under_free_ids(ShopFile& shop, std::vector<Edit> edits) {
    std::map<RecordRef, std::int64_t, ByKindAndId> ids; // in the order of their ids
    for (const Edit& edit : edits) {
        if (edit.field == "exists" && !edit.before && edit.after) ids[edit.record] = 0;
    }
    std::map<RecordKind, std::int64_t> next;
    for (auto& [record, id] : ids) {
        if (next.count(record.kind) == 0) {
            const auto free = new_id(shop, record.kind);
            if (!free) return free.error();
            next[record.kind] = *free;
        }
        id = next[record.kind]++;
    }
    for (Edit& edit : edits) {
        const RecordField* field = find_field(table_of(edit.record.kind), edit.field);
        if (field != nullptr && field->refers_to && edit.after) {
            for (const auto& [record, id] : ids) {
                if (record.kind == *field->refers_to && std::to_string(record.id) == *edit.after) {
                    edit.after = std::to_string(id);
                    break;
                }
            }
        }
        const auto own = ids.find(edit.record);
        if (own != ids.end()) edit.record.id = own->second;
    }
    return edits;
}

Result<std::vector<Edit>> over_what_is_stored(ShopFile& shop, const std::vector<Edit>& edits) {
    std::map<RecordRef, FieldTexts, ByKindAndId> now;
    std::vector<Edit> over;
    over.reserve(edits.size());
    for (Edit edit : edits) {
        if (now.count(edit.record) == 0) {
            auto stored = stored_fields(shop.connection(), edit.record);
            if (!stored) return stored.error();
            now[edit.record] = std::move(stored).value();
        }
        FieldTexts& fields = now[edit.record];
        const auto found = fields.find(edit.field);
        edit.before = found == fields.end() ? std::nullopt : std::optional(found->second);
        if (edit.before == edit.after) continue;
        if (edit.after) {
            fields[edit.field] = *edit.after;
        } else {
            fields.erase(edit.field);
        }
        over.push_back(std::move(edit));
    }
    return over;
}

} // namespace rodway
