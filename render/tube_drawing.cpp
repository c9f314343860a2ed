#include "render/tube_drawing.h"

#include <QFontMetricsF>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/annotation.h"
#include "render/painted_file.h"

namespace rodway {
namespace {

constexpr double wall_shown_mm = 1.8;

QFont sized(QFont font) {
    if (font.pixelSize() <= 0) {
        font.setPixelSize(
            std::max(1, static_cast<int>(std::lround(font.pointSizeF() * 96.0 / 72.0))));
    }
    return font;
}

double reach_mm(const BoreCut& bore) {
    return bore.radius_mm + bore.half_straight_mm;
}

/// From a slice's own millimetres to the painter.
struct SlicePlace {
    QPointF middle;
    double units_per_mm = 1.0;

    [[nodiscard]] QPointF at(const Vec2& mm) const {
        return middle + units_per_mm * QPointF(mm.x(), -mm.y());
    }
};

double degrees_of(const Vec2& way) {
    return std::atan2(-way.y(), way.x()) * 180.0 / std::numbers::pi;
}

QPainterPath outline_of(const BoreCut& bore, const SlicePlace& place, double out_mm) {
    const double radius = place.units_per_mm * (bore.radius_mm + out_mm);
    const double half = place.units_per_mm * bore.half_straight_mm;
    QPainterPath flat;
    flat.addRoundedRect(QRectF(-half - radius, -radius, 2.0 * (half + radius), 2.0 * radius),
                        radius, radius);
    QTransform turn;
    turn.translate(place.middle.x(), place.middle.y());
    turn.rotate(degrees_of(bore.long_way_mm));
    return turn.map(flat);
}

QPainterPath outline_of(const RodCut& rod, const SlicePlace& place) {
    QPainterPath flat;
    flat.addEllipse(QPointF(), place.units_per_mm * rod.long_radius_mm,
                    place.units_per_mm * rod.radius_mm);
    QTransform turn;
    const QPointF at = place.at(rod.at_mm);
    turn.translate(at.x(), at.y());
    turn.rotate(degrees_of(rod.leans));
    return turn.map(flat);
}

/// Cut material, hatched as on a drawing, and the bore's edge. The strokes are drawn one by one:
/// patterns don't come through in every reader of SVG.
void paint_wall(QPainter& painter, const TubeSlice& slice, const SlicePlace& place,
                const Palette& palette) {
    const QPainterPath bore = outline_of(slice.bore, place, 0.0);
    const QPainterPath outside = outline_of(slice.bore, place, wall_shown_mm);
    constexpr double stroke_every = 6.0;
    const int strokes = std::max(24, static_cast<int>(outside.length() / stroke_every));
    // So far ahead of its foot each stroke ends that it leans by about 45 degrees.
    const double lean = place.units_per_mm * wall_shown_mm / outside.length();
    painter.setPen(QPen(palette.faint_ink, 1.2));
    for (int at = 0; at < strokes; ++at) {
        const double foot = static_cast<double>(at) / strokes;
        painter.drawLine(bore.pointAtPercent(foot),
                         outside.pointAtPercent(std::fmod(foot + lean, 1.0)));
    }
    painter.setBrush(palette.paper_high);
    painter.setPen(QPen(palette.ink, 1.8));
    painter.drawPath(bore);
}

/// Everything the rod takes up, its edge broken; then the way its middle goes.
void paint_turn(QPainter& painter, const TubeSlice& slice, const SlicePlace& place,
                const Palette& palette) {
    if (slice.turn.empty()) {
        return;
    }
    QColor sweep = palette.of(Material::sweep);
    sweep.setAlpha(255);
    QColor fill = palette.paper_high;
    constexpr double tint = 0.35;
    fill = QColor::fromRgbF(fill.redF() + tint * (sweep.redF() - fill.redF()),
                            fill.greenF() + tint * (sweep.greenF() - fill.greenF()),
                            fill.blueF() + tint * (sweep.blueF() - fill.blueF()));
    // Edges first: what lies inside another place of the rod is covered by the fill.
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(palette.ink, 1.8));
    for (const RodCut& rod : slice.turn) {
        painter.drawPath(outline_of(rod, place));
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(fill);
    for (const RodCut& rod : slice.turn) {
        painter.drawPath(outline_of(rod, place));
    }
}

void paint_path(QPainter& painter, const TubeSlice& slice, const SlicePlace& place,
                const Palette& palette) {
    QPolygonF path;
    for (const RodCut& rod : slice.turn) {
        path << place.at(rod.at_mm);
    }
    painter.setPen(QPen(palette.paper, 3.6));
    painter.drawPolyline(path);
    painter.setPen(QPen(palette.ink, 1.4));
    painter.drawPolyline(path);
}

void paint_rod(QPainter& painter, const TubeSlice& slice, const SlicePlace& place,
               const Palette& palette) {
    if (!slice.rod) {
        return;
    }
    QColor fill = palette.accent;
    fill.setAlpha(150);
    painter.setBrush(fill);
    painter.setPen(QPen(palette.ink, 1.6));
    painter.drawPath(outline_of(*slice.rod, place));
    const QPointF middle = place.at(slice.rod->at_mm);
    painter.setPen(QPen(palette.paper, 1.4));
    painter.drawLine(middle - QPointF(5.0, 0.0), middle + QPointF(5.0, 0.0));
    painter.drawLine(middle - QPointF(0.0, 5.0), middle + QPointF(0.0, 5.0));
}

/// Clock numbers stand as far out as the longest way of the bore needs.
void paint_clock(QPainter& painter, const TubeSlice& slice, const SlicePlace& place,
                 const TubeContent& content, const Palette& palette) {
    const double text = painter.fontMetrics().height();
    const double ring = place.units_per_mm * (reach_mm(slice.bore) + wall_shown_mm);
    painter.setPen(palette.ink);
    for (int hour = 1; hour <= 12; ++hour) {
        const double angle = hour * std::numbers::pi / 6.0;
        const QPointF way(std::sin(angle), -std::cos(angle));
        painter.setPen(QPen(palette.ink, hour % 3 == 0 ? 2.2 : 1.0));
        painter.drawLine(place.middle + ring * way, place.middle + (ring + 4.0) * way);
        const QPointF at = place.middle + (ring + 4.0 + 0.62 * text) * way;
        QFont font = painter.font();
        font.setBold(hour % 3 == 0);
        painter.save();
        painter.setFont(font);
        painter.drawText(QRectF(at.x() - text, at.y() - 0.5 * text, 2.0 * text, text),
                         Qt::AlignCenter, QString::number(hour));
        painter.restore();
    }
    const double out = ring + 4.0 + 1.25 * text;
    painter.drawText(QRectF(place.middle.x() - 80.0, place.middle.y() - out - text, 160.0, text),
                     Qt::AlignHCenter | Qt::AlignBottom, content.front_label);
    painter.save();
    painter.translate(place.middle.x() + out + 0.5 * text, place.middle.y());
    painter.rotate(90.0);
    painter.drawText(QRectF(-80.0, -0.5 * text, 160.0, text), Qt::AlignCenter, content.right_label);
    painter.restore();
}

void paint_closest_gap(QPainter& painter, const TubeSlice& slice, const SlicePlace& place,
                       const Palette& palette) {
    if (!slice.closest) {
        return;
    }
    const QPointF rod = place.at(slice.closest->rod_mm);
    const QPointF wall = place.at(slice.closest->wall_mm);
    paint_gap(painter, rod, wall, 20.0, palette);
    // The value stands in the middle of the bore's far side, where the rod isn't.
    const QFontMetricsF metrics(painter.font(), painter.device());
    const QSizeF text = metrics.size(0, slice.closest->label) + QSizeF(10.0, 4.0);
    QPointF away = place.middle - wall;
    const double length = std::hypot(away.x(), away.y());
    away = length > 1e-9 ? away / length : QPointF(0.0, 1.0);
    const QPointF middle = place.middle + 0.5 * place.units_per_mm * slice.bore.radius_mm * away;
    QRectF box(QPointF(), text);
    box.moveCenter(middle);
    painter.setPen(QPen(palette.ink, 1.0));
    painter.drawLine(0.5 * (rod + wall), middle);
    QColor ground = palette.paper;
    ground.setAlpha(235);
    painter.setBrush(ground);
    painter.drawRoundedRect(box, 3.0, 3.0);
    painter.drawText(box, Qt::AlignCenter, slice.closest->label);
}

} // namespace

// Side by side, in one column or between, whichever lets the bores be drawn largest.
TubeLayout lay_out_tube(const QRectF& place, const TubeContent& content, const QFont& font) {
    const QFontMetricsF metrics(sized(font));
    const double text = metrics.height();
    TubeLayout layout;
    const QRectF room(0.0, 0.0, place.width() - 16.0, place.height());
    const double notes =
        content.notes.isEmpty()
            ? 6.0
            : metrics.boundingRect(room, Qt::TextWordWrap, content.notes.join('\n')).height() + 6.0;
    layout.notes = QRectF(place.left() + 8.0, place.bottom() - notes, place.width() - 16.0, notes);
    const double top = place.top() + 1.5 * text; // under the heading
    const double height = layout.notes.top() - top;
    double reach = 1.0;
    for (const TubeSlice& slice : content.slices) {
        reach = std::max(reach, reach_mm(slice.bore) + wall_shown_mm);
    }
    // A title above each, the word at 12 o'clock, numbers all round.
    const double title = 1.2 * text;
    const double margin = 2.6 * text;
    const std::size_t count = std::max<std::size_t>(1, content.slices.size());
    std::size_t columns = 1;
    layout.units_per_mm = 0.0;
    for (std::size_t tried = 1; tried <= count; ++tried) {
        const double rows = std::ceil(static_cast<double>(count) / static_cast<double>(tried));
        const double side =
            std::min(place.width() / static_cast<double>(tried), height / rows - title);
        const double scale = (0.5 * side - margin) / reach;
        if (scale > layout.units_per_mm) {
            layout.units_per_mm = scale;
            columns = tried;
        }
    }
    layout.units_per_mm = std::max(layout.units_per_mm, 0.5);
    const std::size_t rows = (count + columns - 1) / columns;
    layout.cell =
        QSizeF(place.width() / static_cast<double>(columns), height / static_cast<double>(rows));
    for (std::size_t at = 0; at < content.slices.size(); ++at) {
        const QPointF corner(place.left() + layout.cell.width() * static_cast<double>(at % columns),
                             top + layout.cell.height() * static_cast<double>(at / columns));
        layout.middles.push_back(corner + QPointF(0.5 * layout.cell.width(),
                                                  title + 0.5 * (layout.cell.height() - title)));
    }
    return layout;
}

void paint_tube(QPainter& painter, const QRectF& place, const TubeContent& content,
                const TubeStyle& style) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(place, style.palette.paper);
    painter.setFont(sized(style.font));
    painter.setPen(style.palette.ink);
    const double text = painter.fontMetrics().height();
    QFont bold = painter.font();
    bold.setBold(true);
    painter.setFont(bold);
    painter.drawText(
        QRectF(place.left() + 8.0, place.top() + 2.0, place.width() - 16.0, 1.4 * text),
        Qt::AlignLeft | Qt::AlignVCenter, content.heading);
    painter.setFont(sized(style.font));
    if (content.slices.empty()) {
        painter.drawText(place.adjusted(16.0, 16.0, -16.0, -16.0),
                         Qt::AlignCenter | Qt::TextWordWrap, content.empty_text);
        painter.restore();
        return;
    }
    const TubeLayout layout = lay_out_tube(place, content, style.font);
    for (std::size_t at = 0; at < content.slices.size(); ++at) {
        const TubeSlice& slice = content.slices[at];
        const SlicePlace where{layout.middles[at], layout.units_per_mm};
        painter.setPen(style.palette.ink);
        const double ring = where.units_per_mm * (reach_mm(slice.bore) + wall_shown_mm);
        painter.drawText(
            QRectF(where.middle.x() - 0.5 * layout.cell.width(),
                   where.middle.y() - ring - 3.7 * text, layout.cell.width(), 1.2 * text),
            Qt::AlignCenter, slice.title);
        paint_wall(painter, slice, where, style.palette);
        paint_turn(painter, slice, where, style.palette);
        paint_rod(painter, slice, where, style.palette);
        paint_path(painter, slice, where, style.palette);
        paint_clock(painter, slice, where, content, style.palette);
        paint_closest_gap(painter, slice, where, style.palette);
    }
    painter.setPen(style.palette.ink);
    painter.drawText(layout.notes, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap,
                     content.notes.join('\n'));
    painter.restore();
}

QImage tube_image(const TubeContent& content, const TubeStyle& style, QSize size) {
    return painted_image(size, [&](QPainter& painter, const QRectF& place) {
        paint_tube(painter, place, content, style);
    });
}

QByteArray tube_svg(const TubeContent& content, const TubeStyle& style, QSize size) {
    return painted_svg(size, [&](QPainter& painter, const QRectF& place) {
        paint_tube(painter, place, content, style);
    });
}

} // namespace rodway
