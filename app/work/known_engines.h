#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// Every version of every known engine, by name, the newest version first. Errors: those of reading
/// the file.
Result<std::vector<KnownEngine>> known_engines(ShopFile& shop);
/// Of each name the newest version.
Result<std::vector<KnownEngine>> newest_known_engines(ShopFile& shop);
/// The newest version of this name, without regard to capitals, or the version named. Errors:
/// no_such_record, `expected` the names there are.
Result<KnownEngine> find_known_engine(ShopFile& shop, const std::string& name,
                                      std::optional<int> version = {});

/// What is said of an engine when it is kept.
struct KnownEngineWords {
    std::string name;
    std::optional<std::string> measured_by;
    std::optional<std::string> measured_on; ///< a day as typed
    std::optional<std::string> note;
};

/// Keeps geometry as a known engine: the next version of its name, the first of a new one. The
/// fields must make an engine. Gives the record's id. Errors: empty_text "name"; not_a_date
/// "measured_on"; those of `make_engine`, of `ShopSession::create`.
Result<std::int64_t> keep_known_engine(ShopSession& session, const KnownEngineWords& words,
                                       const SetUpFields& fields);

/// Changes what is said of one version. One act. Errors: as above.
Result<Done> change_known_engine(ShopSession& session, const KnownEngine& engine,
                                 const KnownEngineWords& words);

/// Lets one version go. One act.
Result<Done> let_known_engine_go(ShopSession& session, const KnownEngine& engine);

/// Begins a build's description from a known engine: a new set-up in hand, its sizes as guesses
/// (see `as_guesses`). Gives the set-up's id. Errors: those of `ShopSession::create`.
Result<std::int64_t> begin_from(ShopSession& session, std::int64_t build_id,
                                const KnownEngine& engine);

/// A new build's first fields: those given, or, where none are, a known engine's as guesses.
/// `known_engine_id` 0: none. Errors: no_such_record; those of reading the file.
Result<SetUpFields> fields_to_begin_with(ShopFile& shop, const SetUpFields& given,
                                         std::int64_t known_engine_id);

} // namespace rodway
