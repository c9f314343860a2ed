#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "core/build/records.h"
#include "db/shop_file.h"

namespace rodway {

/// A build's photos in the order they were added. The pictures themselves: `path_of` in
/// `db/attachments`.
Result<std::vector<Photo>> photos(ShopFile& shop, std::int64_t build_id);

/// Takes the id from `photo`; see `new_id`. The file is kept before, see `keep`.
[[nodiscard]] std::vector<Edit> edits_to_create(const Photo& photo);

} // namespace rodway
