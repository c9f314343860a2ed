#include "app/bench/bench_delegate.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QHelpEvent>
#include <QToolTip>
#include <cmath>

#include "app/bench/bench_model.h"
#include "app/bench/stage_rail.h"

namespace rodway {
namespace {

constexpr double margin_px = 6.0;
constexpr double sign_px = 11.0;

QRectF inside(const QRect& cell) {
    return QRectF(cell).adjusted(margin_px, 4.0, -margin_px, -4.0);
}

CellText text_of(const QModelIndex& index, const QFont& font) {
    const QStringList lines = index.data().toString().split(QLatin1Char('\n'));
    CellText text{lines.front(), lines.value(1), font, font};
    text.first_font.setBold(index.column() == BenchModel::build_column);
    return text;
}

/// Above the words of the stage in hand.
QRectF rail_place(const QRect& cell, const QFont& font) {
    const QRectF place = inside(cell);
    const double height = rail_height_px + QFontMetricsF(font).lineSpacing();
    return {place.left(), place.top() + std::max(0.0, (place.height() - height) / 2.0),
            place.width(), rail_height_px};
}

/// A triangle with its point up: late.
void paint_late(QPainter& painter, const QPointF& at, const QColor& ink, const QColor& paper) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    painter.drawPolygon(QPolygonF({at + QPointF(sign_px / 2.0, 0.0), at + QPointF(sign_px, sign_px),
                                   at + QPointF(0.0, sign_px)}));
    painter.setPen(QPen(paper, 1.4));
    const QPointF middle = at + QPointF(sign_px / 2.0, 0.0);
    painter.drawLine(middle + QPointF(0.0, 4.2), middle + QPointF(0.0, 7.2));
    painter.drawPoint(middle + QPointF(0.0, 9.4));
}

void paint_promised(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index,
                    const CellInk& colours) {
    QRectF place = inside(option.rect);
    CellText text = text_of(index, option.font);
    if (!index.data(BenchModel::late_role).toBool()) {
        paint_lines(painter, text, place, colours.ink, colours.faint);
        return;
    }
    text.second_font.setBold(true);
    place.setLeft(place.left() + sign_px + 5.0);
    const QRectF words = lines_of(text, place).second_place;
    painter.setRenderHint(QPainter::Antialiasing);
    paint_late(painter, {place.left() - sign_px - 5.0, words.center().y() - sign_px / 2.0},
               colours.ink, colours.paper);
    paint_lines(painter, text, place, colours.ink, colours.ink);
}

} // namespace

CellInk ink_of(const QStyleOptionViewItem& option) {
    const bool selected = (option.state & QStyle::State_Selected) != 0;
    const QPalette::ColorGroup group =
        (option.state & QStyle::State_Active) != 0 ? QPalette::Active : QPalette::Inactive;
    CellInk ink;
    ink.ink = option.palette.color(group, selected ? QPalette::HighlightedText : QPalette::Text);
    ink.paper = option.palette.color(group, selected ? QPalette::Highlight : QPalette::Base);
    constexpr float share = 0.78F;
    const auto mixed = [](float a, float b) { return share * a + (1.0F - share) * b; };
    ink.faint = QColor::fromRgbF(mixed(ink.ink.redF(), ink.paper.redF()),
                                 mixed(ink.ink.greenF(), ink.paper.greenF()),
                                 mixed(ink.ink.blueF(), ink.paper.blueF()));
    return ink;
}

void paint_ground(QPainter& painter, const QStyleOptionViewItem& option) {
    const QStyle* style = option.widget != nullptr ? option.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &option, &painter, option.widget);
}

void BenchDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    item.text.clear();
    painter->save();
    paint_ground(*painter, item);
    const CellInk colours = ink_of(item);
    CellText text = text_of(index, option.font);
    QRectF place = inside(option.rect);
    switch (index.column()) {
        case BenchModel::rail_column: {
            const QRectF rail = rail_place(option.rect, option.font);
            paint_rail(*painter, rail, index.data(BenchModel::rail_role).value<Rail>(), colours.ink,
                       colours.paper);
            place.setTop(rail.bottom());
            place.setHeight(QFontMetricsF(option.font).lineSpacing());
            paint_lines(*painter, text, place, colours.faint, colours.faint, 1);
            break;
        }
        case BenchModel::held_column: {
            const QStringList lines = index.data(BenchModel::held_role).toStringList();
            text.first = lines.value(0);
            text.second = lines.value(1);
            const bool under_mouse = (option.state & QStyle::State_MouseOver) != 0;
            text.first_font.setUnderline(under_mouse);
            text.second_font.setUnderline(under_mouse);
            paint_lines(*painter, text, place, colours.ink, colours.faint);
            break;
        }
        case BenchModel::promised_column:
            paint_promised(*painter, item, index, colours);
            break;
        default:
            paint_lines(*painter, text, place, colours.ink, colours.faint);
    }
    painter->restore();
}

bool BenchDelegate::helpEvent(QHelpEvent* event, QAbstractItemView* view,
                              const QStyleOptionViewItem& option, const QModelIndex& index) {
    if (event->type() == QEvent::ToolTip && index.column() == BenchModel::rail_column) {
        const Rail rail = index.data(BenchModel::rail_role).value<Rail>();
        const int stage = stage_at(event->pos(), rail_place(option.rect, option.font), rail);
        if (stage >= 0) {
            QToolTip::showText(event->globalPos(), stage_words(rail[stage]), view);
            return true;
        }
    }
    return QStyledItemDelegate::helpEvent(event, view, option, index);
}

int BenchDelegate::row_height(const QFont& font) {
    return static_cast<int>(std::ceil(most_cell_lines * QFontMetricsF(font).lineSpacing())) + 10;
}

int BenchDelegate::held_line_at(const QPoint& point, const QRect& cell, const QModelIndex& index,
                                const QFont& font) {
    const QStringList shown = index.data(BenchModel::held_role).toStringList();
    const CellLines lines = lines_of({shown.value(0), shown.value(1), font, font}, inside(cell));
    if (lines.first_place.contains(point)) {
        return 0;
    }
    return lines.second_place.contains(point) ? 1 : -1;
}

} // namespace rodway
