#pragma once

#include <optional>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// What a change of a part does to the open items of its build, to go into the same act: a part
/// that becomes temporary opens one that asks for its replacement; the item is closed when the part
/// that takes its place is fitted, or when it is temporary no longer, and opened again when that
/// is taken back. `before`: nothing for a new part; `after`: nothing for one that is removed.
/// Errors: those of reading the file.
Result<std::vector<Edit>> temporary_part_edits(ShopSession& session,
                                               const std::optional<PartRecord>& before,
                                               const std::optional<PartRecord>& after);

} // namespace rodway
