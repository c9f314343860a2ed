#pragma once

#include <QFont>
#include <QPainter>
#include <QString>

#include "render/renderer.h"

namespace rodway {

/// The closest spot of one rod and its tube, and what is said about it. Points: block frame, mm.
struct ClosestSpot {
    ValvePosition valve;
    QString label; ///< may have several lines
    Vec3 p_rod_E = Vec3::Zero();
    Vec3 p_wall_E = Vec3::Zero();
};

/// Paints the dimension line of the closest spot with its label over a picture of `frame`, whose
/// left top corner is the painter's origin. `pixel_ratio` is picture pixels per painter unit.
void paint_closest(QPainter& painter, const Frame& frame, const ClosestSpot& spot,
                   double pixel_ratio);

/// How the lens looks at a closest spot: square to the dimension line, as near as that allows to
/// the frame's own line of sight, only that train drawn.
[[nodiscard]] Frame lens_frame(const Frame& frame, const ClosestSpot& spot, int side_px);

/// Paints a round lens picture (made from `lens_frame`) with its border and the dimension line, the
/// lens's square being `place`.
void paint_lens(QPainter& painter, const QRectF& place, const QImage& picture, const Frame& lens,
                const ClosestSpot& spot);

/// Where the lens goes in a picture of this size (painter units): a corner away from the spot.
[[nodiscard]] QRectF lens_place(const QSizeF& picture, const QPointF& spot);

} // namespace rodway
