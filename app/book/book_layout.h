#pragma once

#include <QPageLayout>
#include <QPainter>
#include <QString>
#include <functional>
#include <memory>
#include <stop_token>
#include <vector>

#include "app/book/book_block.h"

namespace rodway {

/// On what paper, and what stands at the head and foot of its pages.
struct BookPaper {
    QPageSize::PageSizeId size = QPageSize::A4;
    double margin_mm = 18.0;
    QString head; ///< at the left of every page's head
    QString foot; ///< at the left of every page's foot; the page's number is at the right
    bool bare_first = false; ///< the first page has neither
};

/// One heading and where it stands.
struct BookOutlineEntry {
    QString title;
    int level = 1;
    int page = 0;   ///< counted from 0
    double y = 0.0; ///< 1/96 in from the page's upper edge
};

/// Blocks put on pages. Sizes are in 1/96 in, whatever the device behind.
class BookLayout {
  public:
    /// Every block in turn. Nothing is cut: what doesn't fit goes on on the next page.
    BookLayout(const BookBlocks& blocks, BookPaper paper);

    [[nodiscard]] int page_count() const { return static_cast<int>(pages_.size()); }
    [[nodiscard]] const std::vector<BookOutlineEntry>& outline() const { return *outline_; }
    [[nodiscard]] const BookPaper& paper() const { return paper_; }
    /// Of the whole sheet.
    [[nodiscard]] QSizeF page_size() const;
    /// Within its margins.
    [[nodiscard]] QRectF text_area() const;

    /// Paints one page onto a painter whose origin is the sheet's upper left corner.
    void paint(int page, QPainter& painter) const;

  private:
    friend class BookFlow;
    using Stroke = std::function<void(QPainter&)>;
    struct Page {
        std::vector<Stroke> strokes;
        QString chapter;
    };

    BookPaper paper_;
    std::vector<Page> pages_;
    /// Shared with what paints the contents, which stands before most of it.
    std::shared_ptr<std::vector<BookOutlineEntry>> outline_;
};

/// The width that text has on this paper.
[[nodiscard]] double text_width(const BookPaper& paper);

} // namespace rodway
