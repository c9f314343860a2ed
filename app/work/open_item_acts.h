#pragma once

#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Opens an item in the name of who works here, now: one act. `id` is given.
/// Errors: empty_text "title"; not_a_date "due"; those of `ShopSession::create`.
Result<std::int64_t> add_open_item(ShopSession& session, OpenItem typed);

/// Writes it anew, one act: what it is, where, more of it, if it goes wrong, when it is due, which
/// gate waits, whether the customer was told. Who opened it and when stays. Nothing if nothing
/// differs.
/// Errors: empty_text "title"; not_a_date "due"; not_of_this_kind "open_item" (`expected` "closed")
/// if it is closed; those of `ShopSession::act`.
Result<Done> change_open_item(ShopSession& session, const OpenItem& before, OpenItem after);

/// Closes it now, with what came of it: one act.
/// Errors: empty_text "outcome"; not_of_this_kind "open_item" (`expected` "closed") if it was
/// before; those of `ShopSession::act`.
Result<Act> close_open_item(ShopSession& session, const OpenItem& item, const std::string& outcome);

} // namespace rodway
