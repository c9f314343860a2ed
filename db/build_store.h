#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// All builds by id, those put away too.
Result<std::vector<Build>> load_builds(ShopFile& shop);

/// The builds that are not put away, by id.
Result<std::vector<Build>> builds_in_hand(ShopFile& shop);

/// Errors: no_such_record.
Result<Build> load_build(ShopFile& shop, std::int64_t id);

} // namespace rodway
