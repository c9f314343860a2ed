#pragma once

#include "core/build/today.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// What a day's list is made of, across all builds: records that could be due on the day asked
/// for, and no more than those.
/// Errors: those of reading the file; not_a_date "day".
Result<TodayFacts> load_today_facts(ShopFile& shop, const TodayRequest& request);

} // namespace rodway
