#include "app/book/book_photo.h"

#include <QCoreApplication>
#include <QImageReader>

#include "app/book/book_text.h"

namespace rodway {
namespace {

struct Photo {
    Q_DECLARE_TR_FUNCTIONS(BookPhoto)
};

constexpr double pixels_per_unit = 180.0 / 96.0; ///< 180 to the inch

QImage read_photo(const QString& file, const QSizeF& box) {
    QImageReader reader(file);
    reader.setAutoTransform(true);
    const QSize whole = reader.size();
    if (whole.isValid()) {
        const bool turned = reader.transformation() & QImageIOHandler::TransformationRotate90;
        const QSizeF room = (turned ? box.transposed() : box) * pixels_per_unit;
        const QSize wanted = whole.scaled(room.toSize(), Qt::KeepAspectRatio);
        if (wanted.width() < whole.width() && !wanted.isEmpty()) {
            reader.setScaledSize(wanted);
        }
    }
    return reader.read();
}

} // namespace

void paint_book_photo(QPainter& painter, const QRectF& box, const QString& file) {
    const QImage image = file.isEmpty() ? QImage() : read_photo(file, box.size());
    if (image.isNull()) {
        painter.setPen(QPen(QColor(120, 120, 120), 0.6, Qt::DashLine));
        painter.drawRect(box);
        painter.setPen(Qt::black);
        painter.setFont(book_font(8.5));
        painter.drawText(box.adjusted(6, 6, -6, -6), Qt::AlignCenter | Qt::TextWordWrap,
                         Photo::tr("The photo's file is not there, or can't be read."));
        return;
    }
    const QSizeF size = QSizeF(image.size()).scaled(box.size(), Qt::KeepAspectRatio);
    // On its box's foot, where its caption begins.
    const QPointF corner(box.left() + (box.width() - size.width()) / 2.0,
                         box.bottom() - size.height());
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(QRectF(corner, size), image);
    painter.restore();
}

} // namespace rodway
