#pragma once

#include <array>
#include <fstream>
#include <sstream>
#include <string>

#include "core/build/stage_plan.h"
#include "core/files/stage_plan_file.h"

namespace rodway::tests {

inline constexpr std::array<const char*, 5> built_in_plan_words{
    "complete_build", "refresh", "valvetrain_mock_up", "head_work", "marine_pair"};

inline std::string built_in_plan_text(const std::string& word) {
    std::ifstream file(RODWAY_RESOURCES "/stage_plans/" + word + ".json", std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

inline StagePlan built_in_plan(const std::string& word) {
    return read_stage_plan_file(built_in_plan_text(word)).value();
}

} // namespace rodway::tests
