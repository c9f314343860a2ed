#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// A build's set-ups with their fields, oldest first.
Result<std::vector<SetUpRecord>> load_set_ups(ShopFile& shop, std::int64_t build_id);

/// The set-up in hand: the one with the highest id. Nothing if the build has none.
Result<std::optional<SetUpRecord>> newest_set_up(ShopFile& shop, std::int64_t build_id);

/// Errors: no_such_record.
Result<SetUpRecord> load_set_up(ShopFile& shop, std::int64_t id);

/// Changes one geometry field from what `set_up` holds; nothing as `after` takes it away.
[[nodiscard]] Edit edit_to_change(const SetUpRecord& set_up, const std::string& path,
                                  const std::optional<TypedValue>& after);

} // namespace rodway
