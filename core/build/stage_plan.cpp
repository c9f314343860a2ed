#include "core/build/stage_plan.h"

#include <algorithm>
#include <cctype>

namespace rodway {
namespace {

constexpr std::string_view word_letters = "abcdefghijklmnopqrstuvwxyz0123456789_";

bool has_id(const StagePlan& plan, const std::string& id) {
    const auto called = [&](const auto& item) { return item.id == id; };
    return std::any_of(plan.stages.begin(), plan.stages.end(), [&](const PlannedStage& stage) {
        return called(stage) || std::any_of(stage.steps.begin(), stage.steps.end(), called) ||
               std::any_of(stage.gates.begin(), stage.gates.end(), called);
    });
}

} // namespace

std::string plan_item(const StagePlan& plan, std::string_view id) {
    return plan.word + ':' + std::string(id);
}

bool is_plan_word(std::string_view word) {
    return !word.empty() && word.front() >= 'a' && word.front() <= 'z' &&
           word.find_first_not_of(word_letters) == std::string_view::npos;
}

std::string free_plan_id(const StagePlan& plan, std::string_view title) {
    constexpr std::size_t longest = 40;
    std::string word;
    for (const char c : title.substr(0, longest)) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = byte < 0x80 && std::isalnum(byte) != 0;
        if (plain) {
            word += static_cast<char>(std::tolower(byte));
        } else if (!word.empty() && word.back() != '_') {
            word += '_';
        }
    }
    while (!word.empty() && word.back() == '_') {
        word.pop_back();
    }
    if (!is_plan_word(word)) {
        word = word.empty() ? "item" : "item_" + word;
    }
    std::string free = word;
    for (int number = 2; has_id(plan, free); ++number) {
        free = word + '_' + std::to_string(number);
    }
    return free;
}

} // namespace rodway
