#pragma once

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// What is stored of one record; no fields at all if it isn't there.
/// Errors: those of reading the file.
Result<FieldTexts> fields_now(ShopFile& shop, RecordRef record);

} // namespace rodway
