#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/shop_file.h"

namespace rodway {

/// Number of the newest act, 0 before the first: a second window sees that others have edited.
Result<std::int64_t> last_act(ShopFile& shop);

/// The acts with a higher number, oldest first, whole.
Result<std::vector<Act>> acts_since(ShopFile& shop, std::int64_t number);

/// Errors: no_such_record.
Result<Act> load_act(ShopFile& shop, std::int64_t number);

/// The acts that touched the record, oldest first. Each has only its edits of this record: to take
/// one back use its number.
Result<std::vector<Act>> history(ShopFile& shop, RecordRef record);

/// The acts that touched a build, oldest first, each with its edits of this build only; with
/// `shop_wide`, those of the records that belong to none.
Result<std::vector<Act>> history_of_build(ShopFile& shop, std::int64_t build_id);

/// The newest link of a build's chain of digests as 64 hexadecimal digits, empty if it has no
/// history; build 0 is the shop as a whole. Printed in the build book: see `db/history_seal`.
Result<std::string> history_head(ShopFile& shop, std::int64_t build_id);

/// The act after which the chain had this head; nothing if it never had.
Result<std::optional<std::int64_t>> act_of_head(ShopFile& shop, std::int64_t build_id,
                                                const std::string& head);

/// Number of the act by which this one stands undone, if it does. An undone undo leaves the act in
/// force again.
Result<std::optional<std::int64_t>> undone_by(ShopFile& shop, std::int64_t act);

/// An id that no record of the kind has or ever had; the ids above it are free too. It is not
/// reserved: if another writer takes it first, `apply` refuses the creation with `changed_since` on
/// the field `exists`, and the caller asks again.
Result<std::int64_t> new_id(ShopFile& shop, RecordKind kind);

} // namespace rodway
