#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "core/build/records.h"
#include "db/shop_file.h"

namespace rodway {

/// A build's readings in the order they were entered: of one quantity at one position the last
/// counts.
Result<std::vector<Reading>> readings(ShopFile& shop, std::int64_t build_id);

/// Takes the id from `reading`; see `new_id`.
[[nodiscard]] std::vector<Edit> edits_to_create(const Reading& reading);

} // namespace rodway
