#pragma once

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Ticks a step in the name of who works here, now. One act; errors: those of `ShopSession::act`.
Result<Act> tick(ShopSession& session, const Step& step);

/// Takes a tick back; the history keeps both. One act; errors: the same.
Result<Act> untick(ShopSession& session, const Step& step);

} // namespace rodway
