#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "core/build/records.h"
#include "db/shop_file.h"

namespace rodway {

/// All builds by id, those put away too.
Result<std::vector<Build>> load_builds(ShopFile& shop);

/// Errors: no_such_record.
Result<Build> load_build(ShopFile& shop, std::int64_t id);

/// Takes the id from `build`; see `new_id`.
[[nodiscard]] std::vector<Edit> edits_to_create(const Build& build);

} // namespace rodway
