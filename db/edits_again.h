#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/shop_file.h"

namespace rodway {

// For an act that could not be written when it was done and is tried again later, when the file may
// no longer be what it was made for.

/// The same act with every record that it creates under an id which is free now; references among
/// its records follow. The other records keep theirs.
/// Errors: those of reading the file.
Result<std::vector<Edit>> under_free_ids(ShopFile& shop, std::vector<Edit> edits);

/// The same wishes beginning with what is stored now; what is already as wished is left out.
/// Errors: those of reading the file.
Result<std::vector<Edit>> over_what_is_stored(ShopFile& shop, const std::vector<Edit>& edits);

} // namespace rodway
