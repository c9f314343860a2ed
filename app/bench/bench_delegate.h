#pragma once

#include <QStyledItemDelegate>

#include "app/bench/cell_lines.h"

namespace rodway {

/// Paints the cells of a `BenchModel`.
class BenchDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] bool helpEvent(QHelpEvent* event, QAbstractItemView* view,
                                 const QStyleOptionViewItem& option,
                                 const QModelIndex& index) override;

    /// How high a row must be.
    [[nodiscard]] static int row_height(const QFont& font);
    /// Which line of what holds a build up stands at a point of its cell; -1 for none.
    [[nodiscard]] static int held_line_at(const QPoint& point, const QRect& cell,
                                          const QModelIndex& index, const QFont& font);
};

/// What a cell's text is painted in: second lines are less dark, and still easy to read.
struct CellInk {
    QColor ink;
    QColor faint;
    QColor paper;
};
[[nodiscard]] CellInk ink_of(const QStyleOptionViewItem& option);

/// The item's ground, selection and focus; its text must be taken out of `option`.
void paint_ground(QPainter& painter, const QStyleOptionViewItem& option);

} // namespace rodway
