#pragma once

#include "core/build/build_facts.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// All that `core/build/hold` needs of one build, as of one moment.
/// Errors: no_such_record; those of reading the file.
Result<BuildFacts> load_build_facts(ShopFile& shop, std::int64_t build_id);

} // namespace rodway
