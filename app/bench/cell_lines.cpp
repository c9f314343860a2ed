#include "app/bench/cell_lines.h"

#include <QFontMetricsF>
#include <QTextLayout>
#include <algorithm>

namespace rodway {
namespace {

/// At most so many lines of a width.
QStringList broken(const QString& text, const QFont& font, double width, int most) {
    QStringList lines;
    QTextLayout layout(text, font);
    layout.beginLayout();
    while (lines.size() < most) {
        QTextLine line = layout.createLine();
        if (!line.isValid()) {
            break;
        }
        line.setLineWidth(width);
        const bool last = lines.size() + 1 == most;
        const QString rest = text.mid(line.textStart(), last ? -1 : line.textLength());
        lines << QFontMetricsF(font).elidedText(rest.trimmed(), Qt::ElideRight, width);
    }
    layout.endLayout();
    return lines;
}

} // namespace

CellLines lines_of(const CellText& text, const QRectF& place, int most) {
    const QFontMetricsF first(text.first_font);
    const QFontMetricsF second(text.second_font);
    const bool both = !text.second.isEmpty();
    CellLines lines;
    lines.first = broken(text.first, text.first_font, place.width(), both ? most - 1 : most);
    const double first_height = first.lineSpacing() * static_cast<double>(lines.first.size());
    const double height = first_height + (both ? second.lineSpacing() : 0.0);
    const double top = place.top() + std::max(0.0, (place.height() - height) / 2.0);
    double widest = 0.0;
    for (const QString& line : lines.first) {
        widest = std::max(widest, first.horizontalAdvance(line));
    }
    lines.first_place = QRectF(place.left(), top, widest, first_height);
    if (both) {
        lines.second = second.elidedText(text.second, Qt::ElideRight, place.width());
        lines.second_place = QRectF(place.left(), top + first_height,
                                    second.horizontalAdvance(lines.second), second.lineSpacing());
    }
    return lines;
}

void paint_lines(QPainter& painter, const CellText& text, const QRectF& place, const QColor& ink,
                 const QColor& faint, int most) {
    const CellLines lines = lines_of(text, place, most);
    const QFontMetricsF first(text.first_font);
    painter.setFont(text.first_font);
    painter.setPen(ink);
    double base = lines.first_place.top() + first.ascent();
    for (const QString& line : lines.first) {
        painter.drawText(QPointF(place.left(), base), line);
        base += first.lineSpacing();
    }
    if (!lines.second.isEmpty()) {
        painter.setFont(text.second_font);
        painter.setPen(faint);
        painter.drawText(QPointF(place.left(), lines.second_place.top() +
                                                   QFontMetricsF(text.second_font).ascent()),
                         lines.second);
    }
}

} // namespace rodway
