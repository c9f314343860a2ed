#pragma once

#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"
#include "core/engine/valve_position.h"

namespace rodway {

/// Puts a lift table into a build's set-up in hand, for these kinds of valve, in place of what
/// described their lobes before. Nothing is changed if the set-up would no longer make an engine; a
/// description that lacks sizes yet makes none anyhow.
/// Errors: missing_field "set_up", those of `make_engine` and of `apply`.
Result<Act> put_lobe(ShopSession& session, std::int64_t build_id,
                     const std::vector<ValveKind>& kinds, const TypedValue& table);

} // namespace rodway
