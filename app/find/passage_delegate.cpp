#include "app/find/passage_delegate.h"

#include <QApplication>
#include <QPainter>
#include <QTextLayout>

namespace rodway {

void PassageDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
    QStyleOptionViewItem here = option;
    initStyleOption(&here, index);
    const QString text = here.text;
    here.text.clear();
    const QStyle* style = here.widget ? here.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &here, painter, here.widget);
    QList<QTextLayout::FormatRange> bold;
    const QVariantList marks = index.data(marks_role).toList();
    for (qsizetype at = 0; at + 1 < marks.size(); at += 2) {
        QTextLayout::FormatRange range;
        range.start = marks[at].toInt();
        range.length = marks[at + 1].toInt();
        range.format.setFontWeight(QFont::Bold);
        range.format.setFontUnderline(true);
        bold << range;
    }
    QTextLayout layout(text, here.font);
    layout.setFormats(bold);
    layout.beginLayout();
    QTextLine line = layout.createLine();
    layout.endLayout();
    const QRect area = style->subElementRect(QStyle::SE_ItemViewItemText, &here, here.widget)
                           .adjusted(3, 0, -3, 0);
    painter->save();
    painter->setClipRect(area);
    const auto group = here.state & QStyle::State_Active ? QPalette::Active : QPalette::Inactive;
    painter->setPen(here.palette.color(
        group, here.state & QStyle::State_Selected ? QPalette::HighlightedText : QPalette::Text));
    layout.draw(painter, QPointF(area.left(), area.center().y() - line.height() / 2.0));
    painter->restore();
}

PassageLine passage_line(const TextPassage& passage) {
    PassageLine line;
    // Marks count bytes; a line break would end what is drawn.
    const auto piece = [&passage](std::size_t from, std::size_t to) {
        QString text = QString::fromStdString(passage.text.substr(from, to - from));
        for (QChar& letter : text) {
            if (letter.isSpace() || letter.category() == QChar::Other_Control) letter = u' ';
        }
        return text;
    };
    if (passage.cut_before) line.text = QStringLiteral("…");
    std::size_t at = 0;
    for (const TextMark& mark : passage.marks) {
        line.text += piece(at, mark.begin);
        const QString marked = piece(mark.begin, mark.begin + mark.length);
        line.marks << static_cast<int>(line.text.size()) << static_cast<int>(marked.size());
        line.text += marked;
        at = mark.begin + mark.length;
    }
    line.text += piece(at, passage.text.size());
    if (passage.cut_after) line.text += QStringLiteral("…");
    return line;
}

} // namespace rodway
