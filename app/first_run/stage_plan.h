#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"

namespace rodway {

struct PlannedStage {
    std::string title;
    std::string caution; ///< key, empty for none
    std::vector<std::string> steps;
};

/// The plan a build begins with, from the program's own resources. A plan that can't be read is a
/// bug.
[[nodiscard]] std::vector<PlannedStage> stage_plan(const char* name);

} // namespace rodway
