#include "core/handoff/book_section.h"

#include <algorithm>
#include <array>
#include <utility>

namespace rodway {
namespace {

using Named = std::pair<BookSection, std::string_view>;
constexpr std::array<Named, 19> named{{{BookSection::cover, "cover"},
                                       {BookSection::contents, "contents"},
                                       {BookSection::glance, "glance"},
                                       {BookSection::settings, "settings"},
                                       {BookSection::watch, "watch"},
                                       {BookSection::stages, "stages"},
                                       {BookSection::sheets, "sheets"},
                                       {BookSection::valvetrain, "valvetrain"},
                                       {BookSection::variants, "variants"},
                                       {BookSection::parts, "parts"},
                                       {BookSection::dyno, "dyno"},
                                       {BookSection::photos, "photos"},
                                       {BookSection::account, "account"},
                                       {BookSection::not_checked, "not_checked"},
                                       {BookSection::changes, "changes"},
                                       {BookSection::cautions, "cautions"},
                                       {BookSection::glossary, "glossary"},
                                       {BookSection::signatures, "signatures"},
                                       {BookSection::history, "history"}}};

} // namespace

std::string_view book_section_word(BookSection section) {
    return named[static_cast<std::size_t>(section)].second;
}

std::optional<BookSection> book_section_called(std::string_view word) {
    const auto found = std::find_if(named.begin(), named.end(),
                                    [word](const Named& one) { return one.second == word; });
    return found == named.end() ? std::nullopt : std::optional(found->first);
}

const std::vector<BookSection>& book_sections() {
    static const std::vector<BookSection> all = [] {
        std::vector<BookSection> sections;
        for (const Named& one : named) {
            sections.push_back(one.first);
        }
        return sections;
    }();
    return all;
}

} // namespace rodway
