#pragma once

#include <vector>

#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// The parts of all builds in hand that aren't in the shop yet (`is_to_come`) and in whose place no
/// other stands, by id. Errors: those of reading the file.
Result<std::vector<PartRecord>> load_parts_to_come(ShopFile& shop);

} // namespace rodway
