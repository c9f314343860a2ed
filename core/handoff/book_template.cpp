#include "core/handoff/book_template.h"

#include <algorithm>
#include <set>

#include "core/build/word_list.h"

namespace rodway {
namespace {

std::string section_words() {
    std::vector<std::string> words;
    for (const BookSection section : book_sections()) {
        words.emplace_back(book_section_word(section));
    }
    return joined(words, " ");
}

class TemplateReader {
  public:
    Result<BookTemplate> read(std::string_view text) {
        int number = 0;
        for (const std::string& line : split_list(text, '\n')) {
            ++number;
            if (line.empty() || line.front() == '#') {
                continue;
            }
            line_ = number;
            const std::size_t blank = line.find(' ');
            word_ = line.substr(0, blank);
            rest_ = blank == std::string::npos ? std::string() : without_blanks(line.substr(blank));
            if (const auto taken = take(); !taken) {
                return taken.error();
            }
        }
        if (template_.title.empty()) {
            return Error{ErrorCode::wrong_format, "book", {}, "book", 1, {}};
        }
        if (template_.sections.empty()) {
            return wrong(ErrorCode::missing_field, "section", {}, section_words());
        }
        return template_;
    }

  private:
    [[nodiscard]] Error wrong(ErrorCode code, const std::string& field, std::string value = {},
                              std::string expected = {}) const {
        return Error{code, field, std::move(value), std::move(expected), line_, {}};
    }

    Result<Done> take() {
        static const std::set<std::string> words{"book",   "section", "heading",
                                                 "before", "after",   "empty"};
        if (words.count(word_) == 0) {
            return template_.title.empty() ? wrong(ErrorCode::wrong_format, word_, {}, "book")
                                           : wrong(ErrorCode::unknown_field, word_, {},
                                                   joined({words.begin(), words.end()}, " "));
        }
        if (rest_.empty()) {
            return wrong(ErrorCode::empty_text, word_);
        }
        if (word_ == "book") {
            return take_title();
        }
        if (template_.title.empty()) {
            return wrong(ErrorCode::wrong_format, word_, {}, "book");
        }
        if (word_ == "section") {
            return take_section();
        }
        if (template_.sections.empty()) {
            return wrong(ErrorCode::missing_field, "section", {}, section_words());
        }
        return take_line_of(template_.sections.back());
    }

    Result<Done> take_title() {
        if (!template_.title.empty()) {
            return wrong(ErrorCode::duplicate_field, word_, rest_);
        }
        template_.title = rest_;
        return Done{};
    }

    Result<Done> take_section() {
        const auto section = book_section_called(rest_);
        if (!section) {
            return wrong(ErrorCode::not_a_choice, word_, rest_, section_words());
        }
        const bool twice =
            std::any_of(template_.sections.begin(), template_.sections.end(),
                        [&](const TemplateSection& one) { return one.section == *section; });
        if (twice) {
            return wrong(ErrorCode::duplicate_field, word_, rest_);
        }
        template_.sections.push_back({*section, {}, {}, {}, false});
        said_empty_ = false;
        return Done{};
    }

    Result<Done> take_line_of(TemplateSection& section) {
        if (word_ == "heading") {
            if (!section.heading.empty()) {
                return wrong(ErrorCode::duplicate_field, word_, rest_);
            }
            section.heading = rest_;
        } else if (word_ == "before") {
            section.before.push_back(rest_);
        } else if (word_ == "after") {
            section.after.push_back(rest_);
        } else {
            if (said_empty_) {
                return wrong(ErrorCode::duplicate_field, word_, rest_);
            }
            if (rest_ != "say" && rest_ != "leave-out") {
                return wrong(ErrorCode::not_a_choice, word_, rest_, "say leave-out");
            }
            said_empty_ = true;
            section.leave_out_empty = rest_ == "leave-out";
        }
        return Done{};
    }

    BookTemplate template_;
    std::string word_;
    std::string rest_;
    int line_ = 1;
    bool said_empty_ = false;
};

} // namespace

Result<BookTemplate> read_book_template(std::string_view text) {
    return TemplateReader().read(text);
}

} // namespace rodway
