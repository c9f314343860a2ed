#include "app/book/book_layout.h"

#include <QCoreApplication>

#include "app/book/book_flow.h"

namespace rodway {
namespace {

struct Layout {
    Q_DECLARE_TR_FUNCTIONS(BookLayout)
};

constexpr double units_per_mm = 96.0 / 25.4;
constexpr double running_height = 22.0; ///< of head and foot, with what parts them from the text

QSizeF size_of(const BookPaper& paper) {
    return QPageSize::size(paper.size, QPageSize::Millimeter) * units_per_mm;
}

QRectF within_margins(const BookPaper& paper) {
    const double margin = paper.margin_mm * units_per_mm;
    return QRectF(QPointF(0.0, 0.0), size_of(paper)).adjusted(margin, margin, -margin, -margin);
}

/// On one line: what is too long for it ends in dots.
void running_line(QPainter& painter, const QRectF& place, const QString& left,
                  const QString& right) {
    const QFont font = book_font(8.0);
    const QFontMetricsF metrics(font);
    painter.setFont(font);
    painter.setPen(QColor(70, 70, 70));
    const double right_width = metrics.horizontalAdvance(right) + 2.0;
    const double left_width = place.width() - right_width - 12.0;
    painter.drawText(QRectF(place.left(), place.top(), left_width, place.height()),
                     Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine,
                     metrics.elidedText(left, Qt::ElideRight, left_width));
    painter.drawText(QRectF(place.right() - right_width, place.top(), right_width, place.height()),
                     Qt::AlignRight | Qt::AlignVCenter | Qt::TextSingleLine, right);
}

} // namespace

double text_width(const BookPaper& paper) {
    return within_margins(paper).width();
}

BookLayout::BookLayout(const BookBlocks& blocks, BookPaper paper)
    : paper_(std::move(paper)), outline_(std::make_shared<std::vector<BookOutlineEntry>>()) {
    BookFlow(*this, blocks).put_all();
}

QSizeF BookLayout::page_size() const {
    return size_of(paper_);
}

QRectF BookLayout::text_area() const {
    return within_margins(paper_).adjusted(0.0, running_height, 0.0, -running_height);
}

void BookLayout::paint(int page, QPainter& painter) const {
    const Page& one = pages_[static_cast<std::size_t>(page)];
    const QRectF whole = within_margins(paper_);
    const bool bare = page == 0 && paper_.bare_first;
    if (!bare) {
        const QRectF head(whole.left(), whole.top(), whole.width(), 14.0);
        const QFontMetricsF metrics(book_font(8.0));
        running_line(painter, head, paper_.head,
                     metrics.elidedText(one.chapter, Qt::ElideRight, whole.width() * 0.4));
        painter.setPen(QPen(QColor(150, 150, 150), 0.5));
        painter.drawLine(head.bottomLeft() + QPointF(0, 1), head.bottomRight() + QPointF(0, 1));
    }
    for (const Stroke& stroke : one.strokes) {
        stroke(painter);
    }
    if (!bare) {
        running_line(painter, QRectF(whole.left(), whole.bottom() - 14.0, whole.width(), 14.0),
                     paper_.foot, Layout::tr("Page %1 of %2").arg(page + 1).arg(page_count()));
    }
}

} // namespace rodway
