#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

struct StageWithSteps {
    Stage stage;
    std::vector<Step> steps;
};

/// A build's plan: stages and their steps, each by its ordinal.
Result<std::vector<StageWithSteps>> stages_with_steps(ShopFile& shop, std::int64_t build_id);

/// Ticks a step that has no tick. `at`: UTC, "2026-03-01T14:05:00Z".
[[nodiscard]] std::vector<Edit> edits_to_tick(const Step& step, const std::string& by,
                                              const std::string& at);

/// Takes a tick back; the history keeps both.
[[nodiscard]] std::vector<Edit> edits_to_untick(const Step& step);

} // namespace rodway
