#pragma once

#include <QString>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/clearance/variant_table.h"

namespace rodway {

/// A variant kept with a build: as a decision to be made, until one of them is taken over.
struct KeptVariant {
    std::int64_t decision_id = 0;
    std::string name;
    std::string sizes; ///< as `typed_variant` reads them: "lifter=+0.05, left-gasket=-0.015"
    std::optional<std::string> why;
    std::string kept_by;
    std::string kept_at; ///< UTC
    /// What the sizes mean on the engine in hand, or why they mean nothing there.
    Result<NamedVariant> variant = NamedVariant{};
};

/// A variant's sizes as `typed_variant` reads them, each a change; empty if it changes nothing.
[[nodiscard]] std::string variant_sizes_text(const Variant& variant, const EngineLayout& layout);

/// A build's kept variants, oldest first. Errors: those of reading the shop.
Result<std::vector<KeptVariant>> kept_variants(ShopFile& shop, std::int64_t build_id,
                                               const Engine& engine);

/// Keeps a variant, in the name of who works here, now. Errors: empty_text "name", "sizes";
/// duplicate_field "name"; those of `ShopSession::create`.
Result<std::int64_t> keep_variant(ShopSession& session, std::int64_t build_id, const Engine& engine,
                                  const QString& name, const Variant& variant, const QString& why);

/// Lets a kept variant go; the history keeps it. Errors: those of `ShopSession::act`.
Result<Done> drop_variant(ShopSession& session, std::int64_t build_id, std::int64_t decision_id);

/// Makes a variant the set-up in hand, and puts down why: one act. The set-ups before are kept;
/// checks that depend on what has changed become stale. The new set-up's id.
/// Errors: empty_text "why"; missing_field "set_up"; as `fields_with_variant`, and those of
/// `ShopSession::create`.
Result<std::int64_t> take_variant_over(ShopSession& session, std::int64_t build_id,
                                       const NamedVariant& named, const QString& why);

} // namespace rodway
