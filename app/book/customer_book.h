#pragma once

#include <QPageSize>
#include <QString>

#include "app/book/book_layout.h"
#include "app/book/book_pdf.h"
#include "app/words/book_words.h"
#include "core/handoff/book_template.h"

namespace rodway {

/// The name under which the shop's own words for a section are kept among what it prints on its
/// papers: "book_settings".
[[nodiscard]] std::string own_words_name(BookSection section);

/// A build's book, ready to be painted.
struct CustomerBook {
    BookLayout layout;
    PdfTitle title;
};
/// Section by section as the template has them, with its standing words and the shop's own.
/// `source.width` is the paper's.
[[nodiscard]] CustomerBook customer_book(const BookTemplate& pattern, words::BookSource source,
                                         QPageSize::PageSizeId size);

} // namespace rodway
