#pragma once

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Puts a build away at that UTC time, or takes it back with nothing: one act, which does nothing
/// if it is so already. Errors: those of `ShopSession::act`.
Result<Done> put_away(ShopSession& session, const Build& build,
                      const std::optional<std::string>& at_utc);

} // namespace rodway
