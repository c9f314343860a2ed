#pragma once

#include <QByteArray>
#include <QString>
#include <functional>
#include <optional>
#include <stop_token>

#include "app/book/book_layout.h"
#include "core/base/result.h"

namespace rodway {

/// What a PDF says of itself.
struct PdfTitle {
    QString title;
    QString author;
};

/// How many pages of how many are done; called on the thread that writes.
using PageProgress = std::function<void(int done, int of)>;

/// A layout as the bytes of a PDF, with its headings as the file's outline. Nothing if a stop was
/// asked for meanwhile. Error: cannot_write ("pdf") if the file can't be put together.
Result<std::optional<QByteArray>> book_pdf(const BookLayout& layout, const PdfTitle& title,
                                           const PageProgress& progress = {},
                                           const std::stop_token& stop = {});

} // namespace rodway
