#include "render/painted_file.h"

#include <QBuffer>
#include <QSvgGenerator>

namespace rodway {

QImage painted_image(QSize size, const PaintDrawing& paint) {
    constexpr int dots_per_metre = 3780; // 96 per inch
    QImage image(size, QImage::Format_RGB32);
    image.setDotsPerMeterX(dots_per_metre);
    image.setDotsPerMeterY(dots_per_metre);
    QPainter painter(&image);
    paint(painter, QRectF(QPointF(), QSizeF(size)));
    return image;
}

QByteArray painted_svg(QSize size, const PaintDrawing& paint) {
    QBuffer buffer;
    QSvgGenerator svg;
    svg.setOutputDevice(&buffer);
    svg.setResolution(96);
    svg.setSize(size);
    svg.setViewBox(QRect(QPoint(), size));
    QPainter painter(&svg);
    paint(painter, QRectF(QPointF(), QSizeF(size)));
    painter.end();
    return buffer.data();
}

} // namespace rodway
