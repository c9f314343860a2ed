#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/build_transfer.h"
#include "db/shop_file.h"

namespace rodway {

/// A build with its whole history, the shop's records that it refers to (customer, people,
/// instruments, products, the shop's own sheets), its photos and the books given away of it by
/// digest. Texts that were erased are left out of the history, as if that field had not been filled
/// in then. A photo without a sound file in the shop has no `file`. Errors: no_such_record;
/// damaged_file (`field`: the history doesn't lead to what is stored).
Result<BuildTransfer> take_out_build(ShopFile& shop, std::int64_t build_id);

struct BuildPutIn {
    std::int64_t build_id = 0;
    int shop_records_made = 0;
    int photos_kept = 0;                     ///< that the shop didn't have
    std::vector<std::string> photos_missing; ///< digests; they were lost before it was taken out
};

/// Puts a build into a shop: its history is done again act by act, each by whom and when it was,
/// under new ids and in one transaction, so that it has a new chain of digests. The shop's own
/// records are matched with ones that read the same, or made by `who`, now. All of it, or nothing:
/// photos are compared with their digests first, and those kept for a build that is refused then
/// are removed again, unless the program stops in between.
///
/// Errors, with `line` where it is known: those of `check_transfer` and `apply_all`; changed_since
/// on `title`, ... (`value` the shop's, `expected` the build's) where the shop has another sheet or
/// quantity under the same word; cannot_read or wrong_type (`field` the photo's path).
Result<BuildPutIn> put_in_build(ShopFile& shop, const BuildTransfer& build,
                                const std::string& photos, const std::string& who,
                                const std::string& when_utc);

} // namespace rodway
