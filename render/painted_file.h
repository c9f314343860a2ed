#pragma once

#include <QByteArray>
#include <QImage>
#include <QPainter>
#include <functional>

namespace rodway {

/// What a drawing paints itself with: a painter and the place it may fill.
using PaintDrawing = std::function<void(QPainter&, const QRectF&)>;

/// A drawing without a window, as pixels or as vectors. Needs a QGuiApplication for its text. Sizes
/// in pixels at 96 per inch.
[[nodiscard]] QImage painted_image(QSize size, const PaintDrawing& paint);
[[nodiscard]] QByteArray painted_svg(QSize size, const PaintDrawing& paint);

} // namespace rodway
