#pragma once

#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Changes what stands on a build's job sheet, from what it was loaded as: one act, which does
/// nothing if nothing differs. `scope`, `exclusions`, `terms` and `note` may have several lines.
/// Errors: empty_text "name", "customer", "engine"; as `kept_line` of the others; wrong_type
/// ("note_shorter"); not_of_this_kind "promised", which goes by `move_promise`; those of
/// `ShopSession::act`.
Result<Done> change_job(ShopSession& session, const Build& before, Build after);

/// Gives the customer another day, with why, and keeps that he was told: one act.
/// Errors: empty_text, not_a_date "promised"; empty_text "reason" unless it is the first day;
/// wrong_type "promised" ("same_day"); as `kept_line`; those of `ShopSession::create`.
Result<Done> move_promise(ShopSession& session, const Build& build, const std::string& day,
                          const std::string& reason);

/// A number cast or stamped into the engine: one act. `id` is given.
/// Errors: empty_text "position" and "number"; as `kept_line`; those of `ShopSession::create`.
Result<std::int64_t> add_casting_number(ShopSession& session, CastingNumber number);

} // namespace rodway
