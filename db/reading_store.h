#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// A build's readings in the order they were entered: of one quantity at one position the last
/// counts.
Result<std::vector<Reading>> readings(ShopFile& shop, std::int64_t build_id);

} // namespace rodway
