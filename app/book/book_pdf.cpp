#include "app/book/book_pdf.h"

#include <QBuffer>
#include <QPdfWriter>

#include "app/book/pdf_outline.h"

namespace rodway {
namespace {

constexpr int dots_per_inch = 384;

/// Every page in turn; false if it was stopped.
bool paint_all(const BookLayout& layout, QPdfWriter& writer, const PageProgress& progress,
               const std::stop_token& stop) {
    QPainter painter(&writer);
    for (int page = 0; page < layout.page_count(); ++page) {
        if (stop.stop_requested()) {
            return false;
        }
        if (page > 0) {
            writer.newPage();
        }
        painter.resetTransform();
        painter.scale(dots_per_inch / 96.0, dots_per_inch / 96.0);
        layout.paint(page, painter);
        if (progress) {
            progress(page + 1, layout.page_count());
        }
    }
    return true;
}

} // namespace

Result<std::optional<QByteArray>> book_pdf(const BookLayout& layout, const PdfTitle& title,
                                           const PageProgress& progress,
                                           const std::stop_token& stop) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setPageSize(QPageSize(layout.paper().size));
        writer.setPageMargins(QMarginsF(0, 0, 0, 0), QPageLayout::Millimeter);
        writer.setResolution(dots_per_inch);
        writer.setTitle(title.title);
        writer.setCreator("Rodway");
        if (!paint_all(layout, writer, progress, stop)) {
            return std::optional<QByteArray>();
        }
    }
    auto finished = with_outline(bytes, layout, title);
    if (!finished) {
        return finished.error();
    }
    return std::optional<QByteArray>(std::move(finished).value());
}

} // namespace rodway
