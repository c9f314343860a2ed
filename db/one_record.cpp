#include "db/one_record.h"

#include "db/connection.h"
#include "db/record_rows.h"

namespace rodway {

Result<FieldTexts> fields_now(ShopFile& shop, RecordRef record) {
    return stored_fields(shop.connection(), record);
}

} // namespace rodway
