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

/// The gap between two points from outside, as a fitter's sketch has it: two arrows point at each
/// other across it, since the gap itself is often only a few pixels. `reach`: how far their lines
/// go, painter's units.
void paint_gap(QPainter& painter, const QPointF& rod, const QPointF& wall, double reach,
               const Palette& palette);

/// Paints the dimension line of the closest spot with its label over a picture of `frame`, whose
/// left top corner is the painter's origin. `pixel_ratio` is picture pixels per painter unit.
void paint_closest(QPainter& painter, const Frame& frame, const ClosestSpot& spot,
                   double pixel_ratio);

/// Paints each state's sign, as on the cylinder plan, at the upper end of that valve's rod; nearer
/// ones over farther ones. Nothing where `show` states nothing.
void paint_states(QPainter& painter, const Frame& frame, double pixel_ratio);

/// Names the front end of the crank, if that is in the picture.
void paint_front(QPainter& painter, const Frame& frame, const QString& label, double pixel_ratio);

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
