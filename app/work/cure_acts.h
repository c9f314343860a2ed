#pragma once

#include <optional>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Adds something that cures, as its label states it, to the shop's products: one act.
/// Errors: empty_text "name"; out_of_range "full_minutes", below those for handling; those of
/// `ShopSession::create`.
Result<std::int64_t> add_product(ShopSession& session, Product product);

/// Starts a cure, applied by who works here, now unless it says when: one act. Times that `cure`
/// doesn't give are the product's, if there is one; those that it doesn't know either stay not
/// known. Errors: empty_text "place"; out_of_range "full_minutes"; those of `ShopSession::create`.
Result<std::int64_t> start_cure(ShopSession& session, Cure cure,
                                const std::optional<Product>& product = {});

/// Ends it: somebody found it cured, or took it off. `at`: UTC; empty: now. One act.
/// Errors: not_of_this_kind "cure" (`expected` "ended") if it was before; those of
/// `ShopSession::act`.
Result<Act> end_cure(ShopSession& session, const Cure& cure,
                     const std::optional<std::string>& note = {}, const std::string& at = {});

} // namespace rodway
