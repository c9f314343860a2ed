#include "app/widgets/thumbnail.h"

#include <QImageReader>
#include <QPixmap>

namespace rodway {

QImage small_picture(const QString& file, int side_px) {
    QImageReader reader(file);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.isValid() && (size.width() > side_px || size.height() > side_px)) {
        reader.setScaledSize(size.scaled(side_px, side_px, Qt::KeepAspectRatio));
    }
    return reader.read();
}

QIcon thumbnail(const QString& file, int side_px) {
    const QImage image = small_picture(file, side_px);
    return image.isNull() ? QIcon() : QIcon(QPixmap::fromImage(image));
}

} // namespace rodway
