#pragma once

#include <vector>

#include "core/build/arrival.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// A build in hand that waits for parts, with its plan.
struct BuildWaiting {
    Build build;
    PlanAndParts plan;               ///< in the plan's order
    std::vector<PartRecord> to_come; ///< by id
};

/// The builds in hand for which a part is still to come, by id. Errors: those of reading the file.
Result<std::vector<BuildWaiting>> builds_waiting_for_parts(ShopFile& shop);

} // namespace rodway
