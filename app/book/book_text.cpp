#include "app/book/book_text.h"

#include <QFontMetricsF>
#include <QPainter>

namespace rodway {

QFont book_font(double points, bool bold) {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(qRound(points * 96.0 / 72.0));
    font.setBold(bold);
    // Lines are broken by the same widths on every device.
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

BrokenText::BrokenText(const QString& text, const QFont& font, double width,
                       Qt::Alignment alignment) {
    line_height_ = QFontMetricsF(font).height();
    QTextOption option(alignment);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setUseDesignMetrics(true);
    for (const QString& paragraph : text.split(u'\n')) {
        if (paragraph.isEmpty()) {
            lines_.push_back({nullptr, 0});
            continue;
        }
        const auto layout = std::make_shared<QTextLayout>(paragraph, font);
        layout->setTextOption(option);
        layout->setCacheEnabled(true);
        layout->beginLayout();
        for (QTextLine line = layout->createLine(); line.isValid(); line = layout->createLine()) {
            line.setLineWidth(width);
            lines_.push_back({layout, line.lineNumber()});
            // A fallback font may be higher than the book's own.
            line_height_ = std::max(line_height_, line.height());
        }
        layout->endLayout();
    }
}

void BrokenText::paint(QPainter& painter, int line, const QPointF& at) const {
    const Line& one = lines_[static_cast<std::size_t>(line)];
    if (one.layout) {
        const QTextLine text = one.layout->lineAt(one.line);
        text.draw(&painter, at - text.position());
    }
}

double BrokenText::natural_width() const {
    double widest = 0.0;
    for (const Line& one : lines_) {
        if (one.layout) {
            widest = std::max(widest, one.layout->lineAt(one.line).naturalTextWidth());
        }
    }
    return widest;
}

} // namespace rodway
