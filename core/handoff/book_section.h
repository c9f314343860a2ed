#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace rodway {

/// What a customer's book is made of.
enum class BookSection {
    cover, ///< whose engine it is, who built it, its picture
    contents,
    glance,     ///< the engine in a few lines
    settings,   ///< what is set and filled in, hot and cold; also printed alone
    watch,      ///< what is to be done and watched: items open, waivers, what was declined
    stages,     ///< what was done, when, by whom
    sheets,     ///< every measurement with its limit
    valvetrain, ///< the clearance of every pushrod
    variants,   ///< set-ups tried, and what was chosen and why
    parts,
    dyno,
    photos,
    account,     ///< estimate, extras, invoice
    not_checked, ///< what nobody looked at, and what this book lacks
    changes,     ///< what is different from the book given before
    cautions,
    glossary,
    signatures,
    history, ///< the head of the history's chain of digests
};

/// The word that never changes: templates and shop files have it.
[[nodiscard]] std::string_view book_section_word(BookSection section);
[[nodiscard]] std::optional<BookSection> book_section_called(std::string_view word);
/// All of them, in the order above.
[[nodiscard]] const std::vector<BookSection>& book_sections();

} // namespace rodway
