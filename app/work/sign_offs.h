#pragma once

#include <optional>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/build_facts.h"

namespace rodway {

/// Signs a stage off in the name of who works here, gate by gate and as a whole: one act. `at`:
/// UTC; empty: now.
/// Answers the id of the stage's sign-off. `facts`: as the build stands now, so that what is frozen
/// is what is there.
/// Errors: those of `sign_offs_to_keep` and of `ShopSession::create`.
Result<std::int64_t> sign_off(ShopSession& session, const HoldFacts& facts, std::int64_t stage_id,
                              const std::optional<std::string>& note = {},
                              const std::string& at = {});

/// Withdraws the newest sign-off of a stage and of its gates: one act. The records remain, with who
/// withdrew them, when and why.
/// Errors: no_such_record "sign_off" if the stage has none; empty_text "reason"; those of
/// `ShopSession::act`.
Result<Act> take_back_sign_off(ShopSession& session, const BuildFacts& records,
                               std::int64_t stage_id, const std::string& reason);

} // namespace rodway
