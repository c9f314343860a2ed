#include "render/joint_drawing.h"

#include <QFontMetricsF>
#include <algorithm>
#include <cmath>

#include "render/cylinder_plan.h"

namespace rodway {
namespace {

constexpr std::size_t most_in_row = 12;
constexpr std::size_t least_for_two_rows = 6;
constexpr double mark_px = 15.0;

QFont in_pixels(const QFont& font) {
    QFont sized = font;
    if (sized.pixelSize() <= 0) {
        sized.setPixelSize(static_cast<int>(std::lround(font.pointSizeF() * 96.0 / 72.0)));
    }
    return sized;
}

std::size_t rows_for(std::size_t bolts) {
    if (bolts < least_for_two_rows) {
        return 1;
    }
    return std::max<std::size_t>(2, (bolts + most_in_row - 1) / most_in_row);
}

std::size_t most_passes(const JointDrawing& drawing) {
    std::size_t most = 0;
    for (const JointBolt& bolt : drawing.bolts) {
        most = std::max(most, bolt.passes.size());
    }
    return most;
}

/// Two discs, one half behind the other.
void paint_doubled(QPainter& painter, const QRectF& place, const QColor& fill,
                   const Palette& palette) {
    const double r = 0.31 * place.width();
    painter.setPen(QPen(palette.ink, std::max(1.2, 0.09 * place.width())));
    painter.setBrush(fill);
    painter.drawEllipse(place.center() + QPointF(-0.55 * r, -0.5 * r), r, r);
    painter.drawEllipse(place.center() + QPointF(0.55 * r, 0.5 * r), r, r);
}

void paint_tick(QPainter& painter, const QRectF& place) {
    const QPointF c = place.center();
    const double r = 0.5 * place.width();
    painter.setPen(QPen(QColor(0x14, 0x17, 0x1a), std::max(1.4, 0.11 * place.width()),
                        Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolyline(QPolygonF(
        {c + r * QPointF(-0.42, 0.05), c + r * QPointF(-0.1, 0.4), c + r * QPointF(0.46, -0.36)}));
}

/// From bolt to bolt in the order of their turns, under everything else.
void paint_path(QPainter& painter, const JointLayout& layout, const JointDrawing& drawing,
                const Palette& palette) {
    painter.setPen(QPen(palette.faint_ink, 1.4, Qt::DashLine));
    for (std::size_t at = 1; at < drawing.path.size(); ++at) {
        painter.drawLine(layout.bolts[drawing.path[at - 1]].center(),
                         layout.bolts[drawing.path[at]].center());
    }
}

void paint_bolt(QPainter& painter, std::size_t at, const JointLayout& layout,
                const JointDrawing& drawing, const Palette& palette, bool focused) {
    const JointBolt& bolt = drawing.bolts[at];
    const QRectF& head = layout.bolts[at];
    const bool selected = drawing.selected == at;
    painter.setPen(selected ? QPen(palette.accent, focused ? 3.6 : 2.4) : QPen(palette.ink, 1.4));
    painter.setBrush(palette.paper);
    painter.drawEllipse(head);
    painter.setPen(palette.ink);
    painter.drawText(head, Qt::AlignCenter, bolt.name);
    if (!bolt.order.isEmpty()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(palette.ink);
        painter.drawRoundedRect(layout.orders[at], 3.0, 3.0);
        painter.setPen(palette.paper);
        painter.drawText(layout.orders[at], Qt::AlignCenter, bolt.order);
    }
    for (std::size_t pass = 0; pass < bolt.passes.size(); ++pass) {
        paint_bolt_mark(painter, layout.marks[at][pass], bolt.passes[pass], palette);
    }
}

void paint_key(QPainter& painter, const JointLayout& layout, const JointDrawing& drawing,
               const Palette& palette) {
    const QFontMetricsF metrics(painter.font(), painter.device());
    double x = layout.key.left();
    for (std::size_t mark = 0; mark < bolt_mark_count; ++mark) {
        const double width = metrics.horizontalAdvance(drawing.mark_words[mark]);
        if (x + mark_px + 4.0 + width > layout.key.right()) {
            return;
        }
        paint_bolt_mark(painter,
                        QRectF(x, layout.key.center().y() - 0.5 * mark_px, mark_px, mark_px),
                        static_cast<BoltMark>(mark), palette);
        painter.setPen(palette.ink);
        painter.drawText(
            QRectF(x + mark_px + 4.0, layout.key.top(), width + 2.0, layout.key.height()),
            Qt::AlignLeft | Qt::AlignVCenter, drawing.mark_words[mark]);
        x += mark_px + width + 18.0;
    }
}

} // namespace

JointLayout lay_out_joint(const QRectF& place, const JointDrawing& drawing, const QFont& font) {
    JointLayout layout;
    layout.text_px = in_pixels(font).pixelSize();
    const double line = 1.5 * layout.text_px;
    layout.title = QRectF(place.left() + 6.0, place.top() + 2.0, place.width() - 12.0, line);
    layout.key =
        QRectF(place.left() + 6.0, place.bottom() - line - 2.0, place.width() - 12.0, line);
    if (drawing.bolts.empty()) {
        return layout;
    }
    const std::size_t rows = rows_for(drawing.bolts.size());
    const std::size_t columns = (drawing.bolts.size() + rows - 1) / rows;
    const QRectF body(place.left() + 6.0, layout.title.bottom(), place.width() - 12.0,
                      layout.key.top() - layout.title.bottom());
    const double across = std::min(body.width() / static_cast<double>(columns), 110.0);
    const double down = std::min(body.height() / static_cast<double>(rows), 110.0);
    const double passes = static_cast<double>(std::max<std::size_t>(1, most_passes(drawing)));
    const double mark = std::clamp((across - 8.0) / passes - 1.0, 5.0, mark_px);
    const bool ordered = std::any_of(drawing.bolts.begin(), drawing.bolts.end(),
                                     [](const JointBolt& bolt) { return !bolt.order.isEmpty(); });
    const double tag_width = ordered ? 1.9 * layout.text_px : 0.0;
    // The tag lies over the head's upper right edge.
    const double tag_from = ordered ? 0.86 : 1.0;
    const double head =
        std::clamp(std::min(down - mark - 8.0, (across - tag_width - 6.0) / tag_from), 14.0, 40.0);
    const double left = body.center().x() - 0.5 * across * static_cast<double>(columns);
    const double top = body.center().y() - 0.5 * down * static_cast<double>(rows);
    for (std::size_t at = 0; at < drawing.bolts.size(); ++at) {
        const double x = left + across * (static_cast<double>(at % columns) + 0.5);
        const double y =
            top + down * static_cast<double>(at / columns) + 0.5 * (down - head - mark - 3.0);
        const double head_left = x - 0.5 * (tag_from * head + tag_width);
        layout.bolts.emplace_back(head_left, y, head, head);
        layout.orders.emplace_back(head_left + tag_from * head, y - 2.0, tag_width,
                                   1.3 * layout.text_px);
        std::vector<QRectF> marks;
        const double each = mark + 1.0;
        const auto count = static_cast<double>(drawing.bolts[at].passes.size());
        for (std::size_t pass = 0; pass < drawing.bolts[at].passes.size(); ++pass) {
            marks.emplace_back(x - 0.5 * each * count + each * static_cast<double>(pass),
                               y + head + 3.0, mark, mark);
        }
        layout.marks.push_back(std::move(marks));
    }
    return layout;
}

void paint_bolt_mark(QPainter& painter, const QRectF& place, BoltMark mark,
                     const Palette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    switch (mark) {
        case BoltMark::waiting:
            paint_state_sign(painter, place, CheckState::not_yet, palette);
            break;
        case BoltMark::done:
            paint_state_sign(painter, place, CheckState::passed, palette);
            paint_tick(painter, place);
            break;
        case BoltMark::missed:
            paint_state_sign(painter, place, CheckState::failed, palette);
            break;
        case BoltMark::off:
            paint_state_sign(painter, place, CheckState::too_close, palette);
            break;
        case BoltMark::doubled:
            paint_doubled(painter, place, palette.of(CheckState::failed), palette);
            break;
    }
    painter.restore();
}

void paint_joint(QPainter& painter, const QRectF& place, const JointDrawing& drawing,
                 const Palette& palette, const QFont& font, bool focused) {
    const JointLayout layout = lay_out_joint(place, drawing, font);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(place, palette.paper);
    QFont bold = in_pixels(font);
    painter.setFont(bold);
    bold.setBold(true);
    paint_path(painter, layout, drawing, palette);
    for (std::size_t at = 0; at < drawing.bolts.size(); ++at) {
        paint_bolt(painter, at, layout, drawing, palette, focused);
    }
    paint_key(painter, layout, drawing, palette);
    painter.setFont(bold);
    painter.setPen(palette.ink);
    painter.drawText(layout.title, Qt::AlignLeft | Qt::AlignVCenter, drawing.title);
    painter.restore();
}

std::optional<std::size_t> bolt_at(const QPointF& point, const QRectF& place,
                                   const JointDrawing& drawing, const QFont& font) {
    const JointLayout layout = lay_out_joint(place, drawing, font);
    for (std::size_t at = 0; at < layout.bolts.size(); ++at) {
        QRectF whole = layout.bolts[at].united(layout.orders[at]);
        for (const QRectF& mark : layout.marks[at]) {
            whole = whole.united(mark);
        }
        if (whole.contains(point)) {
            return at;
        }
    }
    return std::nullopt;
}

} // namespace rodway
