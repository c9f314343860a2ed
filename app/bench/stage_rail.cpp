#include "app/bench/stage_rail.h"

#include <QPainter>

namespace rodway {

Rail rail_of(const std::vector<StageWithSteps>& stages) {
    Rail rail;
    for (const StageWithSteps& stage : stages) {
        RailStage mark;
        mark.steps = static_cast<int>(stage.steps.size());
        for (const Step& step : stage.steps) {
            mark.ticked += step.ticked_at ? 1 : 0;
        }
        rail << mark;
    }
    return rail;
}

void paint_rail(QPainter& painter, const QRectF& place, const Rail& rail, const QPalette& colours) {
    if (rail.isEmpty()) {
        return;
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double gap = 4.0;
    const double width =
        std::min(44.0, (place.width() - 12.0) / static_cast<double>(rail.size()) - gap);
    const double height = std::min(14.0, place.height() - 8.0);
    double x = place.left() + 6.0;
    const double y = place.center().y() - height / 2.0;
    for (const RailStage& stage : rail) {
        const QRectF box(x, y, width, height);
        painter.setPen(QPen(colours.color(QPalette::Text), 1.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(box, 3.0, 3.0);
        const double share =
            stage.steps > 0 ? static_cast<double>(stage.ticked) / stage.steps : 0.0;
        if (share > 0.0) {
            painter.setBrush(colours.color(QPalette::Text));
            painter.drawRoundedRect(QRectF(x, y, width * share, height), 3.0, 3.0);
        }
        if (share == 1.0) {
            // A finished stage has a tick as well as a full box.
            painter.setPen(QPen(colours.color(QPalette::Base), 2.0));
            const QPointF middle = box.center();
            painter.drawPolyline(QPolygonF(
                {middle + QPointF(-4, 0), middle + QPointF(-1, 3), middle + QPointF(5, -4)}));
        }
        x += width + gap;
    }
    painter.restore();
}

void RailDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    QStyledItemDelegate::paint(painter, option, index);
    QPalette colours = option.palette;
    if (option.state & QStyle::State_Selected) {
        colours.setColor(QPalette::Text, colours.color(QPalette::HighlightedText));
        colours.setColor(QPalette::Base, colours.color(QPalette::Highlight));
    }
    paint_rail(*painter, option.rect, index.data(rail_role).value<Rail>(), colours);
}

} // namespace rodway
