#pragma once

#include <map>
#include <optional>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"
#include "core/describe/dimension.h"
#include "core/describe/outline.h"

namespace rodway {

/// What stands in a size's box: as it was typed, with its ± and source where they are not the usual
/// ones; empty if it was never given.
[[nodiscard]] std::string described_text(const SetUpFields& fields, const std::string& owner,
                                         const EngineDimension& dimension);

/// A record with geometry, a set-up or a known engine, as it is stored.
struct GeometryRecord {
    RecordRef record;
    SetUpFields fields;
};
[[nodiscard]] inline GeometryRecord geometry_of(const SetUpRecord& set_up) {
    return {{RecordKind::set_up, set_up.id}, set_up.fields};
}
[[nodiscard]] inline GeometryRecord geometry_of(const KnownEngine& engine) {
    return {{RecordKind::known_engine, engine.id}, engine.fields};
}

/// Keeps a size as typed (see `read_typed_size`), or takes it away if the text is empty: what is
/// assumed stands again. One act; none if nothing changes. Errors: those of `read_typed_size`, of
/// `ShopSession::act`.
Result<Done> keep_described_size(ShopSession& session, const GeometryRecord& record,
                                 const std::string& owner, const EngineDimension& dimension,
                                 const std::string& text);

/// Keeps one field of a set-up as it is given, or takes it away; what can't stand beside it goes
/// too (a card beside a lift table). One act; none if nothing changes. Errors: those of
/// `ShopSession::act`.
Result<Done> keep_set_up_field(ShopSession& session, const GeometryRecord& record,
                               const std::string& path, const std::optional<TypedValue>& value);

/// The same of several, each kept as it is given or taken away, as one act; `what` names it in the
/// history. Errors: those of `ShopSession::act`.
Result<Done> keep_set_up_fields(ShopSession& session, const GeometryRecord& record,
                                const std::map<std::string, std::optional<TypedValue>>& values,
                                const QString& what);

/// Puts an outline into the set-up in hand; a build without one gets its first. One act. Errors:
/// those of `outline_fields`, of `ShopSession::act` and `create`.
Result<Done> keep_outline(ShopSession& session, std::int64_t build_id,
                          const std::optional<SetUpRecord>& set_up, const EngineOutline& outline);

/// A set-up's described sizes as guesses, each with its ± as it was known and at least what is
/// assumed of it: another engine of the same kind is not this one.
[[nodiscard]] SetUpFields as_guesses(const SetUpFields& fields);

} // namespace rodway
