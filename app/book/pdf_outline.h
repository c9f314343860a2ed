#pragma once

#include <QByteArray>

#include "app/book/book_pdf.h"

namespace rodway {

/// The same PDF with the layout's headings as its outline (ISO 32000-1, 12.3.3), its title shown
/// in a reader's title bar, and its author. Error: cannot_write ("pdf") for bytes that are no PDF.
Result<QByteArray> with_outline(const QByteArray& pdf, const BookLayout& layout,
                                const PdfTitle& title);

} // namespace rodway
