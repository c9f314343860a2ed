#include "db/reading_status_text.h"

#include <array>
#include <utility>

#include "core/base/assert.h"

namespace rodway {
namespace {

constexpr std::array<std::pair<ReadingStatus, std::string_view>, 6> words{{
    {ReadingStatus::measured, "measured"},
    {ReadingStatus::from_the_box, "from_the_box"},
    {ReadingStatus::assumed, "assumed"},
    {ReadingStatus::not_measured, "not_measured"},
    {ReadingStatus::same, "same"},
    {ReadingStatus::see_photo, "see_photo"},
}};

} // namespace

std::string to_edit_text(ReadingStatus status) {
    for (const auto& [known, word] : words) {
        if (known == status) return std::string(word);
    }
    RODWAY_ASSERT(false);
    return {};
}

std::optional<ReadingStatus> reading_status_from(std::string_view text) {
    for (const auto& [known, word] : words) {
        if (word == text) return known;
    }
    return std::nullopt;
}

std::string reading_status_words() {
    std::string all;
    for (const auto& [known, word] : words) {
        if (!all.empty()) all += ", ";
        all += word;
    }
    return all;
}

std::vector<std::string_view> reading_status_choices() {
    std::vector<std::string_view> choices;
    choices.reserve(words.size());
    for (const auto& [known, word] : words) choices.push_back(word);
    return choices;
}

bool needs_text(ReadingStatus status) {
    return status == ReadingStatus::measured || status == ReadingStatus::from_the_box ||
           status == ReadingStatus::assumed;
}

} // namespace rodway
