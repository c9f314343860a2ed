#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/shop_file.h"

namespace rodway {

/// Does all the edits in one transaction, or none. This and `undo` are the only ways anything
/// changes; when they answer, the act is on the disk.
///
/// The edits are taken in their order, and each must begin with what is stored then. A record is
/// created by `exists` from nothing to "1" together with its needed fields, and removed by `exists`
/// to nothing together with every field it has, in any order within the act. A set-up's geometry
/// paths carry `to_edit_text(TypedValue)`.
///
/// Errors, `field` the edit's field:
/// - changed_since: `value` is what is stored, `expected` the edit's `before`, empty for nothing.
/// On
///   `exists`: the id is taken, or (`value` "removed") was used before, or a record that refers to
///   this one stands in the way of its removal (`value` e.g. "step 12").
/// - unknown_field (`expected` "fixed" for one that is set only at creation), missing_field,
///   no_such_record (also for a record or set-up referred to that is not there or not of the same
///   build), empty_text, not_utf8, not_a_number, out_of_range, not_a_choice, wrong_type.
/// - those of the file: locked_file, cannot_write, damaged_file, and cannot_read if it no longer
///   stands under its name.
Result<Act> apply(ShopFile& shop, std::vector<Edit> edits, const std::string& who,
                  const std::string& when_utc);

/// Several acts, each by its own person at its own time, in one transaction: all or none. An act
/// that undoes another of the list names it by the `number` it has there. Errors: as for `apply`.
Result<std::vector<Act>> apply_all(ShopFile& shop, std::vector<Act> acts);

/// Takes back a whole act; taking back that one does it again.
/// Errors: no_such_record (`field` "act"), changed_since (`field` "act", `value` the number of the
/// act by which it is undone already; or as for `apply`), erased_text (what it wrote was personal
/// and is gone).
Result<Act> undo(ShopFile& shop, std::int64_t act, const std::string& who,
                 const std::string& when_utc);

/// For `db` alone: the same for one act inside a write transaction of the caller's.
Result<Done> apply_within(ShopFile& shop, Act& act);

/// The edits that remove the record as it is stored now. Errors: no_such_record.
Result<std::vector<Edit>> edits_to_remove(ShopFile& shop, RecordRef record);

} // namespace rodway
