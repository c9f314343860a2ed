#pragma once

#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Leaves a step out of its build, with why: one act. A tick stays as it is.
/// Errors, `field` "not_needed": empty_text; as `kept_line`; those of `ShopSession::act`.
Result<Act> leave_step_out(ShopSession& session, const Step& step, const std::string& reason);

/// The step is to be done after all: one act. Errors: those of `ShopSession::act`.
Result<Act> take_step_in(ShopSession& session, const Step& step);

} // namespace rodway
