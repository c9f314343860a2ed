#include "app/book/page.h"

#include <QFontMetricsF>
#include <algorithm>

namespace rodway {
namespace {

constexpr double units_per_point = 96.0 / 72.0;

} // namespace

Page::Page(QPainter& painter, const QRectF& area)
    : painter_(painter), area_(area), y_(area.top()) {}

QFont Page::font(double point_size, bool bold) const {
    QFont font(QStringLiteral("DejaVu Sans"));
    // The painter is scaled to 96 units to the inch, so a size in units is a size on paper.
    font.setPixelSize(qRound(point_size * units_per_point));
    font.setBold(bold);
    return font;
}

void Page::heading(const QString& text, double point_size) {
    const QFont bold = font(point_size, true);
    const double height = QFontMetricsF(bold).height();
    painter_.setFont(bold);
    painter_.setPen(Qt::black);
    painter_.drawText(QRectF(area_.left(), y_, area_.width(), height),
                      Qt::AlignLeft | Qt::AlignVCenter, text);
    y_ += height * 1.25;
}

double Page::paragraph_height(const QString& text, double point_size, double width) const {
    return QFontMetricsF(font(point_size))
        .boundingRect(QRectF(0, 0, width, 1e5), Qt::TextWordWrap, text)
        .height();
}

void Page::paragraph(const QString& text, double point_size, double indent, double width) {
    const double across = width > 0.0 ? width : area_.width() - indent;
    const double height = paragraph_height(text, point_size, across);
    painter_.setFont(font(point_size));
    painter_.setPen(Qt::black);
    painter_.drawText(QRectF(area_.left() + indent, y_, across, height), Qt::TextWordWrap, text);
    y_ += height + 2.0;
}

void Page::cells(const std::vector<Column>& columns, const std::vector<QString>& texts,
                 double row_height, const QFont& row_font) {
    painter_.setPen(Qt::black);
    double x = area_.left();
    const QFontMetricsF metrics(row_font);
    for (std::size_t at = 0; at < columns.size() && at < texts.size(); ++at) {
        const QRectF cell(x + 3.0, y_, columns[at].width - 6.0, row_height);
        // A long text is set smaller, down to what can still be read, before anything is cut off.
        QFont fitting = row_font;
        const double wanted = metrics.horizontalAdvance(texts[at]);
        if (wanted > cell.width()) {
            fitting.setPixelSize(
                std::max(7, static_cast<int>(row_font.pixelSize() * cell.width() / wanted)));
        }
        painter_.setFont(fitting);
        const QString text =
            QFontMetricsF(fitting).elidedText(texts[at], Qt::ElideRight, cell.width());
        painter_.drawText(
            cell,
            static_cast<int>(columns[at].right ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter,
            text);
        x += columns[at].width;
    }
}

void Page::table(const std::vector<Column>& columns, const std::vector<std::vector<QString>>& rows,
                 double row_height, double point_size) {
    double width = 0.0;
    std::vector<QString> titles;
    for (const Column& column : columns) {
        width += column.width;
        titles.push_back(column.title);
    }
    const auto rule = [&](double thickness) {
        painter_.setPen(QPen(QColor(90, 90, 90), thickness));
        painter_.drawLine(QPointF(area_.left(), y_), QPointF(area_.left() + width, y_));
    };
    const double top = y_;
    cells(columns, titles, row_height, font(point_size, true));
    y_ += row_height;
    rule(1.0);
    for (const auto& row : rows) {
        cells(columns, row, row_height, font(point_size));
        y_ += row_height;
        rule(0.4);
    }
    painter_.setPen(QPen(QColor(160, 160, 160), 0.4));
    double x = area_.left();
    for (const Column& column : columns) {
        if (x > area_.left()) {
            painter_.drawLine(QPointF(x, top), QPointF(x, y_));
        }
        x += column.width;
    }
    y_ += 4.0;
}

} // namespace rodway
