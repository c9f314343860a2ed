#include "app/book/book_text.h"

#include <QFontMetricsF>
#include <QPainter>

namespace rodway {
namespace {

/// How many signs a line may have so that no number is broken behind its leading point (" .013",
/// which Qt takes for the end of a sentence); 0 if it may stay as it is.
int whole_numbers(const QString& text, const QTextLine& line) {
    const qsizetype end = line.textStart() + line.textLength();
    if (end >= text.size() || text[end - 1] != u'.' || !text[end].isDigit()) {
        return 0;
    }
    const qsizetype blank = text.lastIndexOf(u' ', end - 1);
    return blank <= line.textStart() ? 0 : static_cast<int>(blank + 1 - line.textStart());
}

} // namespace

QFont book_font(double points, bool bold) {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(qRound(points * 96.0 / 72.0));
    font.setBold(bold);
    // Lines are broken by the same widths on every device.
    font.setHintingPreference(QFont::PreferNoHinting);
    // The least spacing there is: with any, Qt makes no ligatures, which would be copied out of the
    // book, and searched for in it, as signs of their own.
    font.setLetterSpacing(QFont::AbsoluteSpacing, 1.0 / 64.0);
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
            if (const int whole = whole_numbers(paragraph, line); whole > 0) {
                line.setNumColumns(whole, width);
            }
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

QString BrokenText::text_of(int line) const {
    const Line& one = lines_[static_cast<std::size_t>(line)];
    if (!one.layout) {
        return {};
    }
    const QTextLine text = one.layout->lineAt(one.line);
    return one.layout->text().mid(text.textStart(), text.textLength());
}

} // namespace rodway
