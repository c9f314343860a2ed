#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// A build's photos in the order they were added. The pictures themselves: `path_of` in
/// `db/attachments`; the file is kept before its record is made, see `keep`.
Result<std::vector<Photo>> photos(ShopFile& shop, std::int64_t build_id);

} // namespace rodway
