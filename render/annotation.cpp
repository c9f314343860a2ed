#include "render/annotation.h"

#include <QFontMetricsF>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "render/cylinder_plan.h"

namespace rodway {
namespace {

std::optional<QPointF> place_of(const Frame& frame, const Vec3& point_E, double pixel_ratio) {
    const std::optional<PicturePoint> point = projected(frame.camera, frame.size, point_E);
    if (!point) {
        return std::nullopt;
    }
    return QPointF(point->x, point->y) / pixel_ratio;
}

QPointF unit(const QPointF& vector, const QPointF& otherwise) {
    const double length = std::hypot(vector.x(), vector.y());
    return length > 1e-6 ? vector / length : otherwise;
}

/// An arrow whose point is at `tip`.
void paint_arrow(QPainter& painter, const QPointF& tip, const QPointF& direction, double size,
                 const QColor& colour) {
    const QPointF side(-direction.y(), direction.x());
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawPolygon(QPolygonF({tip, tip - size * direction + 0.36 * size * side,
                                   tip - size * direction - 0.36 * size * side}));
}

QRectF label_place(const QPainter& painter, const QString& label, const QPointF& spot,
                   const QSizeF& size) {
    const QFontMetricsF metrics(painter.font(), painter.device());
    const QSizeF text = metrics.size(0, label) + QSizeF(16.0, 10.0);
    const bool to_right = spot.x() + 60.0 + text.width() < size.width();
    QRectF box(QPointF(to_right ? spot.x() + 48.0 : spot.x() - 48.0 - text.width(),
                       spot.y() - 36.0 - text.height()),
               text);
    if (box.top() < 4.0) {
        box.moveTop(spot.y() + 36.0);
    }
    box.moveLeft(std::clamp(box.left(), 4.0, std::max(4.0, size.width() - text.width() - 4.0)));
    box.moveTop(std::clamp(box.top(), 4.0, std::max(4.0, size.height() - text.height() - 4.0)));
    return box;
}

} // namespace

void paint_gap(QPainter& painter, const QPointF& rod, const QPointF& wall, double reach,
               const Palette& palette) {
    const QPointF direction = unit(wall - rod, {1.0, 0.0});
    const QPointF side(-direction.y(), direction.x());
    for (const bool halo : {true, false}) {
        const QColor colour = halo ? palette.paper : palette.ink;
        painter.setPen(QPen(colour, halo ? 4.5 : 1.6, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(rod - reach * direction, rod);
        painter.drawLine(wall + reach * direction, wall);
        painter.drawLine(rod - 4.0 * side, rod + 4.0 * side);
        painter.drawLine(wall - 4.0 * side, wall + 4.0 * side);
    }
    paint_arrow(painter, rod, direction, 8.0, palette.ink);
    paint_arrow(painter, wall, -direction, 8.0, palette.ink);
}

void paint_closest(QPainter& painter, const Frame& frame, const ClosestSpot& spot,
                   double pixel_ratio) {
    const std::optional<QPointF> rod = place_of(frame, spot.p_rod_E, pixel_ratio);
    const std::optional<QPointF> wall = place_of(frame, spot.p_wall_E, pixel_ratio);
    const QSizeF size(frame.size.width / pixel_ratio, frame.size.height / pixel_ratio);
    if (!rod || !wall || !QRectF(QPointF(), size).contains(*rod)) {
        return;
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    paint_gap(painter, *rod, *wall, 26.0, frame.palette);
    if (!spot.label.isEmpty()) {
        const QPointF middle = 0.5 * (*rod + *wall);
        const QRectF box = label_place(painter, spot.label, middle, size);
        QColor ground = frame.palette.paper;
        ground.setAlpha(232);
        painter.setPen(QPen(frame.palette.ink, 1.0));
        const QPointF near(std::clamp(middle.x(), box.left(), box.right()),
                           std::clamp(middle.y(), box.top(), box.bottom()));
        painter.drawLine(middle, near);
        painter.setBrush(ground);
        painter.drawRoundedRect(box, 4.0, 4.0);
        painter.setPen(frame.palette.ink);
        painter.drawText(box, Qt::AlignCenter, spot.label);
    }
    painter.restore();
}

void paint_states(QPainter& painter, const Frame& frame, double pixel_ratio) {
    struct Sign {
        QPointF at;
        double depth_mm;
        CheckState state;
    };
    std::vector<Sign> signs;
    for (const auto& [valve, state] : frame.show.states) {
        const bool drawn = frame.show.others != Others::hidden || !frame.show.selected ||
                           valve == frame.show.selected;
        const std::optional<Segment> rod =
            drawn ? frame.scene->rod_E(valve, frame.crank) : std::nullopt;
        if (!rod) {
            continue;
        }
        // Beyond the rocker's end, clear of the adjuster.
        constexpr double beyond_mm = 34.0;
        const Vec3 at_E = rod->b + beyond_mm * (rod->b - rod->a).normalized();
        if (const auto point = projected(frame.camera, frame.size, at_E)) {
            signs.push_back({QPointF(point->x, point->y) / pixel_ratio, point->depth_mm, state});
        }
    }
    std::stable_sort(signs.begin(), signs.end(),
                     [](const Sign& a, const Sign& b) { return a.depth_mm > b.depth_mm; });
    const double side = std::clamp(frame.size.height / pixel_ratio / 34.0, 11.0, 22.0);
    for (const Sign& sign : signs) {
        const QRectF place(sign.at.x() - 0.5 * side, sign.at.y() - 0.5 * side, side, side);
        paint_state_sign(painter, place, sign.state, frame.palette);
    }
}

void paint_front(QPainter& painter, const Frame& frame, const QString& label, double pixel_ratio) {
    // The point of the arrow that the scene has there.
    const std::optional<QPointF> at = place_of(frame, frame.scene->front_E(), pixel_ratio);
    const QRectF picture(0.0, 0.0, frame.size.width / pixel_ratio, frame.size.height / pixel_ratio);
    if (label.isEmpty() || !frame.show.shared_parts || !at || !picture.contains(*at)) {
        return;
    }
    const QFontMetricsF metrics(painter.font(), painter.device());
    const QSizeF text = metrics.size(0, label) + QSizeF(10.0, 4.0);
    QRectF box(QPointF(at->x() - 0.5 * text.width(), at->y() + 6.0), text);
    box.moveLeft(std::clamp(box.left(), 2.0, std::max(2.0, picture.width() - text.width() - 2.0)));
    box.moveTop(std::min(box.top(), picture.height() - text.height() - 2.0));
    painter.save();
    QColor ground = frame.palette.paper;
    ground.setAlpha(200);
    painter.setPen(Qt::NoPen);
    painter.setBrush(ground);
    painter.drawRoundedRect(box, 3.0, 3.0);
    painter.setPen(frame.palette.ink);
    painter.drawText(box, Qt::AlignCenter, label);
    painter.restore();
}

Frame lens_frame(const Frame& frame, const ClosestSpot& spot, int side_px) {
    Frame lens = frame;
    lens.size = {side_px, side_px};
    lens.show.selected = spot.valve;
    lens.show.others = Others::hidden;
    lens.show.shared_parts = false;
    lens.show.pistons = false;
    lens.show.section.reset();
    const Vec3 gap = spot.p_wall_E - spot.p_rod_E;
    // A gap of nearly nothing still shows some of both bodies; a wide one fits with room to spare.
    const double seen_mm = std::clamp(5.0 * gap.norm(), 8.0, 40.0);
    Vec3 sight = forward_E(frame.camera);
    if (gap.norm() > 1e-6) {
        const Vec3 along = gap.normalized();
        Vec3 square = sight - sight.dot(along) * along;
        if (square.norm() < 0.05) {
            square = up_E(frame.camera) - up_E(frame.camera).dot(along) * along;
        }
        sight = square.normalized();
    }
    lens.camera = looking_at(frame.camera, 0.5 * (spot.p_rod_E + spot.p_wall_E), sight, seen_mm);
    // Parallel, so that nothing that stands between the eye and the spot hides it by being near.
    lens.camera.perspective = false;
    return lens;
}

void paint_lens(QPainter& painter, const QRectF& place, const QImage& picture, const Frame& lens,
                const ClosestSpot& spot) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    QPainterPath circle;
    circle.addEllipse(place);
    painter.setClipPath(circle);
    painter.drawImage(place, picture);
    painter.translate(place.topLeft());
    const double ratio = lens.size.width / place.width();
    const std::optional<QPointF> rod = place_of(lens, spot.p_rod_E, ratio);
    const std::optional<QPointF> wall = place_of(lens, spot.p_wall_E, ratio);
    if (rod && wall) {
        paint_gap(painter, *rod, *wall, 0.2 * place.width(), lens.palette);
    }
    painter.restore();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(lens.palette.paper, 5.0));
    painter.drawEllipse(place);
    painter.setPen(QPen(lens.palette.ink, 1.6));
    painter.drawEllipse(place);
    painter.restore();
}

QRectF lens_place(const QSizeF& picture, const QPointF& spot) {
    const double side = std::clamp(0.34 * std::min(picture.width(), picture.height()), 90.0, 260.0);
    constexpr double margin = 12.0;
    const double left = spot.x() > 0.5 * picture.width() ? margin : picture.width() - side - margin;
    const double top =
        spot.y() > 0.5 * picture.height() ? margin : picture.height() - side - margin;
    return {left, top, side, side};
}

} // namespace rodway
