#pragma once

#include <QStringList>
#include <memory>

#include "app/book/book_block.h"
#include "app/book/book_facts.h"
#include "app/book/book_pictures.h"
#include "core/handoff/book_section.h"

namespace rodway::words {

/// From what a book's sections are made. Drawings keep it until their page is painted.
struct BookSource {
    std::shared_ptr<const BookFacts> facts;
    std::shared_ptr<const BookPictures> pictures;
    double width = 600.0; ///< of the text, 1/96 in
};

[[nodiscard]] QString book_section_title(BookSection section);
/// What is said where nothing was recorded.
[[nodiscard]] QString book_section_empty(BookSection section);
/// Headings of level 2 and below, and what stands under them; empty if nothing was recorded.
[[nodiscard]] BookBlocks book_section(BookSection section, const BookSource& source);

// The sections one by one.
[[nodiscard]] BookBlocks book_cover(const BookSource& source, const QString& title);
[[nodiscard]] BookBlocks book_glance(const BookSource& source);
[[nodiscard]] BookBlocks book_settings(const BookSource& source);
[[nodiscard]] BookBlocks book_watch(const BookSource& source);
[[nodiscard]] BookBlocks book_stages(const BookSource& source);
[[nodiscard]] BookBlocks book_sheets(const BookSource& source);
[[nodiscard]] BookBlocks book_valvetrain(const BookSource& source);
[[nodiscard]] BookBlocks book_variants(const BookSource& source);
[[nodiscard]] BookBlocks book_parts(const BookSource& source);
[[nodiscard]] BookBlocks book_dyno(const BookSource& source);
[[nodiscard]] BookBlocks book_photos(const BookSource& source);
[[nodiscard]] BookBlocks book_account(const BookSource& source);
[[nodiscard]] BookBlocks book_not_checked(const BookSource& source);
[[nodiscard]] BookBlocks book_changes(const BookSource& source);
[[nodiscard]] BookBlocks book_cautions(const BookSource& source);
[[nodiscard]] BookBlocks book_glossary();
[[nodiscard]] BookBlocks book_signatures(const BookSource& source);
[[nodiscard]] BookBlocks book_history(const BookSource& source);

[[nodiscard]] QString settings_topic(SettingsTopic topic);
/// One thing that a whole book would want, in a sentence.
/// Of a missing thing that `is_of_rods`, a sentence.
[[nodiscard]] QString rods_not_passed(const MissingFact& fact);
[[nodiscard]] QString missing_fact(const MissingFact& fact, const BookFacts& facts);
/// Where it is mended: the name of a place of the window.
[[nodiscard]] QString missing_place(const MissingFact& fact);
// The word of `--json`: never translated.
[[nodiscard]] QString token(MissingKind kind);

/// "Mary Hale (MH)": whose initials these are, as far as the shop's list tells.
[[nodiscard]] QString person(const BookFacts& facts, const std::string& initials);
/// A reading as written; its sheet's unit stands behind a bare number.
[[nodiscard]] QString as_written(const Taken& taken, const Quantity& quantity);
/// A paragraph, a line of a two-column table, and the like.
[[nodiscard]] BookBlock paragraph(const QString& text, BookText::Look look = BookText::Look::plain);
/// Rows of "what" and "value"; those without a value are left out.
class FactTable {
  public:
    void add(const QString& what, const QString& value);
    void add(const QString& what, const std::optional<std::string>& value);
    [[nodiscard]] bool empty() const { return table_.rows.empty(); }
    [[nodiscard]] BookTable take() { return std::move(table_); }

  private:
    BookTable table_{{{{}, 0.3}, {{}, 0.7}}, {}, 16.0, 9.0};
};

} // namespace rodway::words
