#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// What can be marked on a part: a day each, but for how it failed.
enum class PartMark {
    needed,
    ordered,
    promised,
    received,
    measured,
    fitted,
    returned,
    kept_until,
    failed, ///< words
};

/// The mark as its field is called, "kept_until", and back.
[[nodiscard]] std::string part_mark_word(PartMark mark);
[[nodiscard]] std::optional<PartMark> part_mark_called(const std::string& word);
/// All of them, in the order above.
[[nodiscard]] std::vector<PartMark> part_marks();

/// Adds a part to its build: one act. Its texts are brought to the form in which they are kept;
/// `id` is given. A temporary one opens its item, see `temporary_parts.h`.
/// Errors: as `checked_part`; those of `ShopSession::create`.
Result<std::int64_t> add_part(ShopSession& session, PartRecord part);

/// Changes a part from what it was loaded as: one act, which does nothing if nothing differs.
/// Errors: as `add_part`; those of `ShopSession::act`.
Result<Done> change_part(ShopSession& session, const PartRecord& before, PartRecord after);

/// Sizes as found when a mark is set; what is nothing stays as it is.
struct PartSizes {
    std::optional<std::string> length = {};
    std::optional<std::string> size = {};
    std::optional<std::string> thread = {};
};

/// Sets a mark on a part, or takes it off with nothing as `text`: one act. Without sizes only the
/// days are checked. Errors: as `change_part`; empty_text "failed".
Result<Done> mark_part(ShopSession& session, const PartRecord& part, PartMark mark,
                       const std::optional<std::string>& text, const PartSizes& sizes = {});

} // namespace rodway
