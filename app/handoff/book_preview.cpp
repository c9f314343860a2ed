#include "app/handoff/book_preview.h"

#include <QKeyEvent>
#include <QPainter>
#include <algorithm>

namespace rodway {
namespace {

constexpr int around = 6; ///< between the sheet and the widget's edge

} // namespace

BookPreview::BookPreview(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Preview of the book"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void BookPreview::show_book(std::shared_ptr<const BookLayout> layout) {
    layout_ = std::move(layout);
    reason_.clear();
    picture_ = QImage();
    go_to(page_);
    update();
}

void BookPreview::show_reason(const QString& text) {
    show_book(nullptr);
    reason_ = text;
}

void BookPreview::go_to(int page) {
    page_ = std::clamp(page, 0, std::max(0, page_count() - 1));
    picture_ = QImage();
    setAccessibleDescription(page_count() == 0
                                 ? tr("No book yet")
                                 : tr("Page %1 of %2").arg(page_ + 1).arg(page_count()));
    update();
    emit turned(page_);
}

QSize BookPreview::picture_size() const {
    const QSizeF room(width() - 2.0 * around, height() - 2.0 * around);
    return (layout_->page_size().scaled(room, Qt::KeepAspectRatio) * devicePixelRatioF()).toSize();
}

void BookPreview::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    if (!layout_) {
        painter.drawText(rect(), Qt::AlignCenter | Qt::TextWordWrap,
                         reason_.isEmpty() ? tr("The book is being put together …") : reason_);
        return;
    }
    if (picture_.isNull()) {
        picture_ = QImage(picture_size(), QImage::Format_RGB32);
        picture_.fill(Qt::white);
        QPainter page(&picture_);
        page.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
        const double scale = picture_.width() / layout_->page_size().width();
        page.scale(scale, scale);
        layout_->paint(page_, page);
    }
    const QSizeF size = QSizeF(picture_.size()) / devicePixelRatioF();
    const QRectF sheet(QPointF((width() - size.width()) / 2.0, (height() - size.height()) / 2.0),
                       size);
    painter.drawImage(sheet, picture_);
    painter.setPen(QPen(palette().color(QPalette::Mid), 1.0));
    painter.drawRect(sheet);
    if (hasFocus()) {
        painter.setPen(QPen(palette().color(QPalette::Highlight), 2.0));
        painter.drawRect(sheet.adjusted(-2, -2, 2, 2));
    }
}

void BookPreview::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_PageDown:
        case Qt::Key_Right:
            return go_to(page_ + 1);
        case Qt::Key_PageUp:
        case Qt::Key_Left:
            return go_to(page_ - 1);
        case Qt::Key_Home:
            return go_to(0);
        case Qt::Key_End:
            return go_to(page_count() - 1);
        default:
            QWidget::keyPressEvent(event);
    }
}

void BookPreview::resizeEvent(QResizeEvent*) {
    picture_ = QImage();
}

} // namespace rodway
