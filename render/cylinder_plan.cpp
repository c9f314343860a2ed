#include "render/cylinder_plan.h"

#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/painted_file.h"

namespace rodway {
namespace {

QPolygonF regular(const QPointF& centre, double radius, int corners, double first_deg) {
    QPolygonF polygon;
    for (int at = 0; at < corners; ++at) {
        const double angle = (first_deg + 360.0 * at / corners) * std::numbers::pi / 180.0;
        polygon << centre + radius * QPointF(std::cos(angle), std::sin(angle));
    }
    return polygon;
}

/// Black or white ink, whichever reads on a fill.
QColor ink_on(const QColor& fill) {
    const double light = 0.299 * fill.redF() + 0.587 * fill.greenF() + 0.114 * fill.blueF();
    return light > 0.5 ? QColor(0x14, 0x17, 0x1a) : QColor(0xff, 0xff, 0xff);
}

/// A disc of which only half still holds.
void paint_half_disc(QPainter& painter, const QPointF& centre, double radius, const QColor& fill,
                     const Palette& palette) {
    painter.setBrush(palette.paper);
    painter.drawEllipse(centre, radius, radius);
    painter.setBrush(fill);
    const QRectF round(centre.x() - radius, centre.y() - radius, 2.0 * radius, 2.0 * radius);
    painter.drawChord(round, 45 * 16, 180 * 16);
}

/// A disc worn flat on its upper side.
void paint_worn_disc(QPainter& painter, const QPointF& centre, double radius) {
    const QRectF round(centre.x() - radius, centre.y() - radius, 2.0 * radius, 2.0 * radius);
    painter.drawChord(round, 160 * 16, 220 * 16);
}

/// A shield with a signature's stroke.
void paint_shield(QPainter& painter, const QPointF& centre, double radius, const QPen& stroke) {
    const auto at = [&](double x, double y) { return centre + radius * QPointF(x, y); };
    painter.drawPolygon(QPolygonF(
        {at(-0.84, -0.84), at(0.84, -0.84), at(0.84, 0.1), at(0.0, 0.98), at(-0.84, 0.1)}));
    painter.setPen(stroke);
    painter.drawLine(at(-0.45, 0.1), at(0.45, -0.4));
}

void paint_front(QPainter& painter, const PlanLayout& layout, const PlanContent& content,
                 const PlanStyle& style) {
    const Palette& palette = style.palette;
    const double x = layout.front.center().x();
    const double half = std::clamp(0.16 * layout.front.height(), 18.0, 46.0);
    const QRectF pulley(x - 5.0, layout.crank_y - half, 10.0, 2.0 * half);
    painter.setPen(QPen(palette.ink, 1.2));
    painter.setBrush(palette.faint_ink);
    painter.drawRoundedRect(pulley, 3.0, 3.0);
    // What is on top of the pulley goes towards -y, down in the plan, when it turns clockwise seen
    // from the front.
    const double way = content.turning == Turning::clockwise ? 1.0 : -1.0;
    const double bend = std::min(12.0, 0.5 * layout.front.width() - 8.0);
    const QPointF from(x - 5.0, layout.crank_y - way * 0.8 * half);
    const QPointF to(x - 5.0, layout.crank_y + way * 0.8 * half);
    QPainterPath path(from);
    path.quadTo(QPointF(x - 5.0 - 2.0 * bend, layout.crank_y), to);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(palette.ink, 2.0));
    painter.drawPath(path);
    const QPointF direction = QPointF(2.0 * bend, way * 0.8 * half);
    const QPointF along = direction / std::hypot(direction.x(), direction.y());
    const QPointF side(-along.y(), along.x());
    painter.setPen(Qt::NoPen);
    painter.setBrush(palette.ink);
    painter.drawPolygon(QPolygonF(
        {to + 1.0 * along, to - 10.0 * along + 4.5 * side, to - 10.0 * along - 4.5 * side}));
    painter.setPen(palette.ink);
    painter.drawText(
        QRectF(layout.front.left(), layout.crank_y - half - 24.0, layout.front.width(), 20.0),
        Qt::AlignHCenter | Qt::AlignBottom, content.front_label);
}

void paint_cylinders(QPainter& painter, const PlanLayout& layout, const PlanContent& content,
                     const PlanStyle& style) {
    const Palette& palette = style.palette;
    QColor fill = palette.faint_ink;
    fill.setAlpha(46);
    QFont number_font = painter.font();
    number_font.setBold(true);
    for (std::size_t at = 0; at < content.cylinders.size(); ++at) {
        painter.setPen(QPen(palette.faint_ink, 1.6));
        painter.setBrush(fill);
        painter.drawEllipse(layout.cylinders[at]);
        // Number one is where counting starts: its tag is filled.
        const bool first = content.cylinders[at].number == 1;
        if (first) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(palette.ink);
            painter.drawRoundedRect(layout.numbers[at], 4.0, 4.0);
        }
        painter.setPen(first ? palette.paper : palette.ink);
        painter.setFont(number_font);
        painter.drawText(layout.numbers[at], Qt::AlignCenter,
                         QString::number(content.cylinders[at].number));
    }
}

void paint_valve(QPainter& painter, std::size_t at, const PlanLayout& layout,
                 const PlanContent& content, const PlanStyle& style) {
    const Palette& palette = style.palette;
    const PlanValve& valve = content.valves[at];
    const QRectF& sign = layout.valves[at];
    if (content.selected == valve.position) {
        const double out = 2.5;
        painter.setPen(QPen(palette.accent, style.focused ? 3.2 : 1.8));
        painter.setBrush(palette.paper);
        painter.drawRoundedRect(sign.adjusted(-out, -out, out, out), 5.0, 5.0);
    }
    paint_state_sign(painter, sign.adjusted(1.5, 1.5, -1.5, -1.5), valve.state, palette);
    painter.setPen(palette.ink);
    if (!valve.whole_cylinder) {
        const bool intake = valve.position.kind == ValveKind::intake;
        painter.drawText(layout.letters[at], Qt::AlignCenter,
                         intake ? content.intake_letter : content.exhaust_letter);
    }
    if (!valve.value.isEmpty()) {
        const double width =
            QFontMetricsF(painter.font(), painter.device()).horizontalAdvance(valve.value);
        const QPointF middle = layout.values[at].center();
        // A ground of its own, so that a bore's edge doesn't cross the figures.
        QColor ground = palette.paper;
        ground.setAlpha(215);
        painter.setPen(Qt::NoPen);
        painter.setBrush(ground);
        painter.drawRoundedRect(
            QRectF(middle.x() - 0.5 * width - 1.0, layout.values[at].top() + 1.0, width + 2.0,
                   layout.values[at].height() - 2.0),
            2.0, 2.0);
        painter.setPen(palette.ink);
        painter.drawText(layout.values[at], Qt::AlignCenter, valve.value);
    }
}

/// Where each bank's line stands in the plan, by bank: side by side in the order they lean, spaced
/// so that neither bores nor valve tips of two banks meet.
std::vector<double> bank_lines_mm(const Engine& engine, const std::vector<Vec3>& tips_K) {
    const std::vector<Bank>& banks = engine.layout.banks;
    const double radius = 0.5 * engine.layout.bore_mm;
    std::vector<std::size_t> order;
    for (std::size_t at = 0; at < banks.size(); ++at) {
        order.push_back(at);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return banks[a].lean_deg < banks[b].lean_deg;
    });
    std::vector<double> lines(banks.size(), 0.0);
    double filled_to = 0.0;
    for (const std::size_t bank : order) {
        double low = -radius;
        double high = radius;
        for (std::size_t at = 0; at < engine.trains.size(); ++at) {
            if (engine.trains[at].bank == bank) {
                low = std::min(low, tips_K[at].y());
                high = std::max(high, tips_K[at].y());
            }
        }
        lines[bank] = filled_to - low;
        filled_to = lines[bank] + high + 0.3 * radius;
    }
    const double middle = 0.5 * (filled_to - 0.3 * radius);
    for (double& line : lines) {
        line -= middle;
    }
    return lines;
}

} // namespace

PlanContent places_of(const Engine& engine) {
    std::vector<Vec3> tips_K;
    for (const Train& train : engine.trains) {
        tips_K.push_back(train.rocker.pivot_K + train.rocker.tip_arm_K);
    }
    const std::vector<double> lines = bank_lines_mm(engine, tips_K);
    PlanContent content;
    content.turning = engine.layout.turning;
    for (const Cylinder& cylinder : engine.layout.cylinders) {
        content.cylinders.push_back({cylinder.number, cylinder.centre_x_mm, lines[cylinder.bank],
                                     0.5 * engine.layout.bore_mm});
    }
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& train = engine.trains[at];
        content.valves.push_back({train.position,
                                  tips_K[at].x(),
                                  lines[train.bank] + tips_K[at].y(),
                                  {},
                                  CheckState::not_yet});
    }
    return content;
}

PlanContent cylinders_of(const Engine& engine) {
    PlanContent content = places_of(engine);
    content.valves.clear();
    for (const PlanCylinder& cylinder : content.cylinders) {
        PlanValve whole;
        whole.position = {cylinder.number, ValveKind::intake, 1};
        whole.x_mm = cylinder.x_mm;
        whole.y_mm = cylinder.y_mm;
        whole.whole_cylinder = true;
        content.valves.push_back(std::move(whole));
    }
    return content;
}

void paint_state_sign(QPainter& painter, const QRectF& place, CheckState state,
                      const Palette& palette) {
    const double side = std::min(place.width(), place.height());
    const QPointF c = place.center();
    const double r = 0.5 * side;
    const QRectF square(c.x() - 0.86 * r, c.y() - 0.86 * r, 1.72 * r, 1.72 * r);
    const QColor& fill = palette.of(state);
    const double line = std::max(1.2, 0.09 * side);
    const QPen outline(palette.ink, line, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
    const QPen mark(ink_on(fill), 1.7 * line, Qt::SolidLine, Qt::RoundCap);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(outline);
    painter.setBrush(fill);
    switch (state) {
        case CheckState::not_yet: { // an empty ring
            painter.setBrush(palette.paper);
            painter.setPen(QPen(palette.ink, line, Qt::DotLine));
            painter.drawEllipse(c, 0.84 * r, 0.84 * r);
            break;
        }
        case CheckState::passed: { // a full disc
            painter.drawEllipse(c, 0.92 * r, 0.92 * r);
            break;
        }
        case CheckState::too_close: { // a diamond parted across: it may fall to either side
            painter.drawPolygon(regular(c, r, 4, 0.0));
            painter.setPen(QPen(ink_on(fill), 1.3 * line));
            painter.drawLine(c - QPointF(0.95 * r, 0.0), c + QPointF(0.95 * r, 0.0));
            break;
        }
        case CheckState::failed: { // a square, crossed out
            painter.drawRect(square);
            painter.setPen(mark);
            const double k = 0.48 * r;
            painter.drawLine(c + QPointF(-k, -k), c + QPointF(k, k));
            painter.drawLine(c + QPointF(-k, k), c + QPointF(k, -k));
            break;
        }
        case CheckState::stale:
            paint_half_disc(painter, c, 0.9 * r, fill, palette);
            break;
        case CheckState::waived:
            paint_shield(painter, c, r, mark);
            break;
        case CheckState::no_answer: { // a ring with nothing joined inside
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(fill, 2.4 * line, Qt::SolidLine, Qt::FlatCap));
            const QRectF ring(c.x() - 0.72 * r, c.y() - 0.72 * r, 1.44 * r, 1.44 * r);
            painter.drawArc(ring, 25 * 16, 130 * 16);
            painter.drawArc(ring, 205 * 16, 130 * 16);
            break;
        }
        case CheckState::serviceable:
            paint_worn_disc(painter, c, 0.92 * r);
            break;
    }
    painter.restore();
}

void paint_cylinder_plan(QPainter& painter, const QRectF& place, const PlanContent& content,
                         const PlanStyle& style) {
    const PlanLayout layout = lay_out_plan(place, content, style.font);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(place, style.palette.paper);
    QFont font = style.font;
    if (font.pixelSize() <= 0) {
        font.setPixelSize(static_cast<int>(std::lround(font.pointSizeF() * 96.0 / 72.0)));
    }
    painter.setFont(font);
    painter.setPen(QPen(style.palette.faint_ink, 1.2, Qt::DashDotLine));
    painter.drawLine(QPointF(layout.front.center().x(), layout.crank_y),
                     QPointF(place.right() - 4.0, layout.crank_y));
    paint_front(painter, layout, content, style);
    paint_cylinders(painter, layout, content, style);
    font.setPixelSize(std::max(1, static_cast<int>(layout.text_px)));
    painter.setFont(font);
    for (std::size_t at = 0; at < content.valves.size(); ++at) {
        paint_valve(painter, at, layout, content, style);
    }
    painter.restore();
}

QImage plan_image(const PlanContent& content, const PlanStyle& style, QSize size) {
    return painted_image(size, [&](QPainter& painter, const QRectF& place) {
        paint_cylinder_plan(painter, place, content, style);
    });
}

QByteArray plan_svg(const PlanContent& content, const PlanStyle& style, QSize size) {
    return painted_svg(size, [&](QPainter& painter, const QRectF& place) {
        paint_cylinder_plan(painter, place, content, style);
    });
}

} // namespace rodway
