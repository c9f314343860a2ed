#pragma once

#include <string>
#include <vector>

#include "core/build/arrival.h"
#include "core/build/records.h"
#include "db/shop_file.h"

namespace rodway {

/// A step or gate that a part sets free when it comes.
struct Unblocked {
    std::string stage;
    std::string title;
    bool gate = false;
    int others = 0; ///< see `Arrival`
};

/// A part that some build waits for.
struct BuyLine {
    PartRecord part;
    std::string build;
    std::vector<Unblocked> unblocks;
};

/// What all builds in hand wait for: by supplier without regard to capitals, those without one
/// last; of each the late ones first, then by promised day. `today`: ISO day of the shop's
/// calendar. Errors: those of reading the file.
Result<std::vector<BuyLine>> load_buy_list(ShopFile& shop, const std::string& today);

/// Stages, steps, gates and parts of one build. Errors: those of reading the file.
Result<PlanAndParts> load_plan_and_parts(ShopFile& shop, std::int64_t build_id);

/// What the part sets free, with titles.
[[nodiscard]] std::vector<Unblocked> unblocked(const PlanAndParts& plan, const PartRecord& part,
                                               const std::string& today);

} // namespace rodway
