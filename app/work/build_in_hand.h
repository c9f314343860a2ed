#pragma once

#include <QString>
#include <vector>

#include "core/clearance/survey.h"
#include "core/engine/engine.h"
#include "db/build_store.h"
#include "db/set_up_store.h"

namespace rodway {

/// A build's number, or its name without regard to capitals. Errors: no_such_record, with the names
/// there are in `expected`, and those of reading the file.
Result<Build> find_build(ShopFile& shop, const QString& number_or_name);

/// A build with the set-up in hand and the engine made of it.
struct BuildInHand {
    Build build;
    SetUpRecord set_up;
    Engine engine;
};

/// Errors: as `find_build` and `make_engine`; missing_field "set_up" if the build has none yet.
Result<BuildInHand> build_in_hand(ShopFile& shop, const Build& build);

/// The line with the least clearance, or nothing if no valve has an answer.
[[nodiscard]] const ValveClearance* tightest(const std::vector<ValveClearance>& lines);

} // namespace rodway
