#pragma once

#include <QString>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Creates a build with the stages, steps and gates of a plan, and its set-up where there is one,
/// as one act. `build.id` is given by the shop file, `build.plan` is `plan`, the word of a plan
/// that the shop knows. Errors: those of `find_plan` and `apply`.
Result<std::int64_t> create_build(ShopSession& session, Build build, const SetUpFields& fields,
                                  const std::string& plan);

/// Puts a set-up beside a build's others; it becomes the one in hand.
Result<std::int64_t> add_set_up(ShopSession& session, std::int64_t build_id, const QString& name,
                                const SetUpFields& fields);

} // namespace rodway
