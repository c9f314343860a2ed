#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/handoff/book_section.h"

namespace rodway {

/// One section of a book, with what always stands in it.
struct TemplateSection {
    BookSection section = BookSection::cover;
    std::string heading;             ///< empty: the program's own
    std::vector<std::string> before; ///< paragraphs above what was recorded
    std::vector<std::string> after;  ///< paragraphs below it
    bool leave_out_empty = false;    ///< with nothing recorded; else it says that nothing was
};

/// Which sections a book has, in their order. Plain text that a shop can edit:
///
///     book Build book
///     # A line that begins so is passed over.
///     section settings
///     heading What your engine is set to
///     before Keep this page with the engine.
///     after Ask before you change any of it.
///     empty leave-out
///
/// A word, a blank, the rest of the line. "book" and its title come first.
struct BookTemplate {
    std::string title;
    std::vector<TemplateSection> sections;
};

/// Reads a template: all of it is good, or nothing is taken.
/// Errors, `field` the word the line begins with, `line` the line: wrong_format (what comes first
/// isn't "book"); unknown_field; duplicate_field ("book", "heading", "empty"; a section's word that
/// stands twice, in `value`); not_a_choice ("section", "empty", `expected` the words there are);
/// empty_text; missing_field ("section", where a line needs one above it or none follows at all).
Result<BookTemplate> read_book_template(std::string_view text);

} // namespace rodway
