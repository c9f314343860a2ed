#pragma once

#include <QStyledItemDelegate>

#include "db/stage_store.h"

namespace rodway {

/// How far each stage is: full, begun or empty, as a row of marks told apart by shape.
struct RailStage {
    int ticked = 0;
    int steps = 0;
};
using Rail = QList<RailStage>;

[[nodiscard]] Rail rail_of(const std::vector<StageWithSteps>& stages);
void paint_rail(QPainter& painter, const QRectF& place, const Rail& rail, const QPalette& colours);

/// Paints the rail in a table's cell; the rail is the item's `rail_role`.
class RailDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    static constexpr int rail_role = Qt::UserRole + 7;
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

} // namespace rodway

Q_DECLARE_METATYPE(rodway::Rail)
