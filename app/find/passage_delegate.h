#pragma once

#include <QStyledItemDelegate>

#include "db/search_words.h"

namespace rodway {

/// A text in which what was looked for stands bold and underlined.
class PassageDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    /// Item data with this role: the marks in the item's text, as pairs of begin and length.
    static constexpr int marks_role = Qt::UserRole + 10;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

/// The passage as one line of text, and its marks as the delegate wants them.
struct PassageLine {
    QString text;
    QVariantList marks;
};
[[nodiscard]] PassageLine passage_line(const TextPassage& passage);

} // namespace rodway
