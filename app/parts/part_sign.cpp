#include "app/parts/part_sign.h"

#include <QPainter>
#include <optional>

#include "core/build/part_wait.h"
#include "render/cylinder_plan.h"

namespace rodway {
namespace {

/// A ring, filled clockwise from the top to so many quarters.
void paint_quarters(QPainter& painter, const QRectF& place, int quarters, const Palette& palette) {
    constexpr int quarter = 90 * 16; // in the sixteenths of a degree that Qt counts in
    painter.setPen(QPen(palette.ink, 1.3));
    painter.setBrush(palette.paper);
    painter.drawEllipse(place);
    if (quarters > 0) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(palette.accent);
        painter.drawPie(place.adjusted(1.2, 1.2, -1.2, -1.2), quarter, -quarters * quarter);
    }
}

void paint_triangle(QPainter& painter, const QRectF& place, const Palette& palette) {
    painter.setPen(QPen(palette.ink, 1.2));
    painter.setBrush(palette.of(CheckState::failed));
    painter.drawPolygon(
        QPolygonF{{QPointF(place.center().x(), place.top()), QPointF(place.right(), place.bottom()),
                   QPointF(place.left(), place.bottom())}});
    painter.setPen(QPen(Qt::white, 1.6, Qt::SolidLine, Qt::RoundCap));
    const double x = place.center().x();
    painter.drawLine(QPointF(x, place.top() + 0.42 * place.height()),
                     QPointF(x, place.top() + 0.64 * place.height()));
    painter.drawPoint(QPointF(x, place.top() + 0.84 * place.height()));
}

void paint_hourglass(QPainter& painter, const QRectF& place, const Palette& palette) {
    painter.setPen(QPen(palette.ink, 1.2));
    painter.setBrush(palette.of(CheckState::too_close));
    const QPointF middle = place.center();
    painter.drawPolygon(QPolygonF{{place.topLeft(), place.topRight(), middle}});
    painter.drawPolygon(QPolygonF{{place.bottomLeft(), place.bottomRight(), middle}});
}

void paint_tick(QPainter& painter, const QRectF& place, const Palette& palette) {
    painter.setPen(QPen(palette.ink, 1.2));
    painter.setBrush(palette.of(CheckState::passed));
    painter.drawEllipse(place);
    painter.setPen(QPen(Qt::white, 2.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const auto at = [&](double x, double y) {
        return QPointF(place.left() + x * place.width(), place.top() + y * place.height());
    };
    painter.drawPolyline(QPolygonF{{at(0.26, 0.54), at(0.44, 0.72), at(0.76, 0.32)}});
}

void paint_arrow(QPainter& painter, const QRectF& place, const Palette& palette) {
    painter.setPen(QPen(palette.ink, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const double y = place.center().y();
    painter.drawLine(QPointF(place.left(), y), QPointF(place.right(), y));
    painter.drawPolyline(QPolygonF{{QPointF(place.left() + 5.0, y - 4.5), QPointF(place.left(), y),
                                    QPointF(place.left() + 5.0, y + 4.5)}});
}

void paint(QPainter& painter, const QRectF& place, const std::optional<PartWait>& wait,
           bool returned, const Palette& palette) {
    if (!wait) {
        returned ? paint_arrow(painter, place, palette) : paint_tick(painter, place, palette);
        return;
    }
    switch (*wait) {
        case PartWait::not_listed:
        case PartWait::needed:
            paint_quarters(painter, place, 0, palette);
            break;
        case PartWait::ordered:
            paint_quarters(painter, place, 1, palette);
            break;
        case PartWait::promised:
            paint_quarters(painter, place, 2, palette);
            break;
        case PartWait::not_measured:
            paint_quarters(painter, place, 3, palette);
            break;
        case PartWait::not_fitted:
            paint_quarters(painter, place, 4, palette);
            break;
        case PartWait::overdue:
            paint_triangle(painter, place, palette);
            break;
        case PartWait::temporary:
            paint_hourglass(painter, place, palette);
            break;
        case PartWait::failed:
            paint_state_sign(painter, place, CheckState::failed, palette);
            break;
    }
}

} // namespace

QIcon part_sign(const PartRecord& part, const std::string& today, const Palette& palette) {
    constexpr int sharpness = 2; // for screens of twice the usual density
    QPixmap picture(part_sign_px * sharpness, part_sign_px * sharpness);
    picture.setDevicePixelRatio(sharpness);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF place(1.5, 1.5, part_sign_px - 3.0, part_sign_px - 3.0);
    paint(painter, place, part_wait(part, today), part.returned.has_value(), palette);
    return QIcon(picture);
}

} // namespace rodway
