#pragma once

#include <optional>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// The most letters that one note holds.
inline constexpr std::size_t longest_note = 20000;

/// What a note or a picture belongs to; nothing: to the build as a whole.
struct KeptAt {
    std::int64_t build_id = 0;
    std::optional<std::int64_t> stage_id = {};
    std::optional<std::int64_t> step_id = {};
    std::string position = {}; ///< as typed, "3I"; may be empty
};

/// Keeps a note in the name of who works here, now: one act.
/// Errors: empty_text "text"; wrong_type "text" ("note_shorter"); as `kept_line`, field "position";
/// those of `ShopSession::create`.
Result<std::int64_t> keep_note(ShopSession& session, const KeptAt& at, const std::string& text,
                               bool in_book);

/// Changes a note from what it was loaded as; who wrote it stays. Nothing happens if nothing
/// differs. Errors: as `keep_note`.
Result<Done> change_note(ShopSession& session, const Note& before, Note after);

/// Takes a record away: one act, which can be undone. Errors: those of `edits_to_remove` and `act`.
Result<Done> take_away(ShopSession& session, RecordRef record, const QString& what);

} // namespace rodway
