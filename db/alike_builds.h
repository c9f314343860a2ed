#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// Why another build is worth a look beside the one in hand.
enum class Alike {
    engine,   ///< the same family: what stands before the first comma of `Build::engine`
    customer, ///< another engine of the same customer
};

/// What another build has of one quantity.
struct AlikeBuild {
    std::int64_t build_id = 0;
    std::string name;
    std::string engine;
    Alike because = Alike::engine;
    /// Of each position the last one entered, in the order of their positions' texts. Of a reading
    /// only position, text, unit, status, who and when are filled in.
    std::vector<Reading> readings;
};

/// The shop's newest other builds, at most `most`, that have the engine's family or the customer in
/// common with this one and a reading of this quantity, the newest first. Capitals don't count.
/// Errors: no_such_record, and those of reading the file.
Result<std::vector<AlikeBuild>> alike_builds(ShopFile& shop, std::int64_t build_id,
                                             const std::string& quantity, int most);

} // namespace rodway
