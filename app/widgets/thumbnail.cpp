#include "app/widgets/thumbnail.h"

#include <QImageReader>
#include <QPixmap>

namespace rodway {

QIcon thumbnail(const QString& file, int side_px) {
    QImageReader reader(file);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.isValid()) {
        reader.setScaledSize(size.scaled(side_px, side_px, Qt::KeepAspectRatio));
    }
    const QImage image = reader.read();
    return image.isNull() ? QIcon() : QIcon(QPixmap::fromImage(image));
}

} // namespace rodway
