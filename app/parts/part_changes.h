#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/work/part_acts.h"
#include "core/build/records.h"

namespace rodway {

/// A part that isn't kept yet, needed from today on.
[[nodiscard]] PartRecord fresh_part(std::int64_t build_id, const std::string& today);

/// The one that is to take this part's place, not kept yet: the same thing, to be bought anew. It
/// is not temporary, and nothing of the old one's days, cost or marking is its own.
[[nodiscard]] PartRecord replacement_of(const PartRecord& part, const std::string& today);

/// Sets one mark on each of these parts, or takes it off with nothing as `text`: one act, open
/// items with it. Parts that have it so already are passed over.
/// Errors: as `with_checked_days`; empty_text, field of the mark; as `ShopSession::act`.
Result<Done> mark_parts(ShopSession& session, const std::vector<PartRecord>& parts, PartMark mark,
                        const std::optional<std::string>& text, const std::string& today);

/// That it failed, how, and until when it is kept: one act. Errors: as `mark_parts`.
Result<Done> mark_failed(ShopSession& session, const PartRecord& part, const std::string& how,
                         const std::string& kept_until, const std::string& today);

/// Takes a part away that was put down by mistake, and the item that asks for its replacement: one
/// act. Errors: changed_since, field "exists", `value` what else speaks of it, such as "photo 12":
/// then it stays; as `ShopSession::act`.
Result<Done> remove_part(ShopSession& session, const PartRecord& part);

} // namespace rodway
