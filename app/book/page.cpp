#include "app/book/page.h"

#include <QFontMetricsF>
#include <algorithm>

namespace rodway {
namespace {

constexpr double units_per_point = 96.0 / 72.0;
constexpr double beside_text = 3.0;
constexpr double above_text = 2.0;
constexpr int least_pixels = 8; ///< what can still be read on paper

/// Smaller where a single word is wider than its column, so that it isn't cut.
QFont fitting(const QString& text, const QFont& font, double column_width) {
    const double room = column_width - 2.0 * beside_text;
    double widest = 0.0;
    const QFontMetricsF metrics(font);
    for (const QString& word : text.split(' ')) {
        widest = std::max(widest, metrics.horizontalAdvance(word));
    }
    QFont smaller = font;
    if (widest > room) {
        smaller.setPixelSize(
            std::max(least_pixels, static_cast<int>(font.pixelSize() * room / widest)));
    }
    return smaller;
}

double wrapped_height(const QString& text, const QFont& font, double column_width) {
    return QFontMetricsF(fitting(text, font, column_width))
        .boundingRect(QRectF(0, 0, column_width - 2.0 * beside_text, 1e5), Qt::TextWordWrap, text)
        .height();
}

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

double Page::width_of(const QString& text, double point_size) const {
    return QFontMetricsF(font(point_size)).horizontalAdvance(text) + 2.0 * beside_text + 1.0;
}

std::vector<QString> Page::titles_of(const std::vector<Column>& columns) {
    std::vector<QString> titles;
    for (const Column& column : columns) {
        titles.push_back(column.title);
    }
    return titles;
}

double Page::row_height_of(const std::vector<Column>& columns, const std::vector<QString>& texts,
                           double row_height, double point_size, bool titles) const {
    const QFont row_font = font(point_size, titles);
    double height = row_height;
    for (std::size_t at = 0; at < columns.size() && at < texts.size(); ++at) {
        const double wrapped = wrapped_height(texts[at], row_font, columns[at].width);
        height = std::max(height, wrapped + 2.0 * above_text);
    }
    return height;
}

void Page::cells(const std::vector<Column>& columns, const std::vector<QString>& texts,
                 double row_height, const QFont& row_font) {
    painter_.setPen(Qt::black);
    double x = area_.left();
    for (std::size_t at = 0; at < columns.size() && at < texts.size(); ++at) {
        const QRectF cell(x + beside_text, y_, columns[at].width - 2.0 * beside_text, row_height);
        painter_.setFont(fitting(texts[at], row_font, columns[at].width));
        painter_.drawText(cell,
                          static_cast<int>(columns[at].right ? Qt::AlignRight : Qt::AlignLeft) |
                              Qt::AlignVCenter | Qt::TextWordWrap,
                          texts[at]);
        x += columns[at].width;
    }
}

void Page::table(const std::vector<Column>& columns, const std::vector<std::vector<QString>>& rows,
                 double row_height, double point_size) {
    double width = 0.0;
    for (const Column& column : columns) {
        width += column.width;
    }
    const auto rule = [&](double thickness) {
        painter_.setPen(QPen(QColor(90, 90, 90), thickness));
        painter_.drawLine(QPointF(area_.left(), y_), QPointF(area_.left() + width, y_));
    };
    const double top = y_;
    const std::vector<QString> titles = titles_of(columns);
    const double head = row_height_of(columns, titles, row_height, point_size, true);
    cells(columns, titles, head, font(point_size, true));
    y_ += head;
    rule(1.0);
    for (const auto& row : rows) {
        const double height = row_height_of(columns, row, row_height, point_size);
        cells(columns, row, height, font(point_size));
        y_ += height;
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
