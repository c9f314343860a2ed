#pragma once

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Writes down what was chosen and why, in the name of who works here, now: one act. `id` is given.
/// Errors: empty_text "question" and "choice"; as `kept_line`; those of `ShopSession::create`.
Result<std::int64_t> add_decision(ShopSession& session, Decision decision);

} // namespace rodway
