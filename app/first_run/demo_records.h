#pragma once

#include <cstdint>

#include "app/edit_stack/shop_session.h"

namespace rodway {

/// Invented people who work in the demo shop, one a line of the list at the window's head.
Result<Done> add_demo_people(ShopSession& session);

/// Invented parts and an account on one of its builds, an inline six: a part that is late, some
/// that came and were measured, a question that the customer hasn't answered.
Result<Done> add_demo_parts_and_account(ShopSession& session, std::int64_t build_id);

} // namespace rodway
