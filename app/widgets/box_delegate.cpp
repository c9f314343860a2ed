#include "app/widgets/box_delegate.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>

namespace rodway {

void BoxDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const {
    QStyledItemDelegate::paint(painter, option, index);
    if (!index.data(odd_role).toBool()) {
        return;
    }
    constexpr double side = 9.0;
    const QPointF corner = QRectF(option.rect).topRight();
    const bool selected = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(Qt::NoPen);
    painter->setBrush(option.palette.color(selected ? QPalette::HighlightedText : QPalette::Text));
    painter->drawPolygon(
        QPolygonF({corner, corner - QPointF(side, 0.0), corner + QPointF(0.0, side)}));
    painter->restore();
}

QWidget* BoxDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                   const QModelIndex& index) const {
    auto* edit = new QLineEdit(parent);
    edit->setFrame(false);
    edit->setAccessibleName(index.model()->headerData(index.column(), Qt::Horizontal).toString());
    connect(edit, &QLineEdit::textEdited, this, &BoxDelegate::typing);
    return edit;
}

void BoxDelegate::setModelData(QWidget* editor, QAbstractItemModel* model,
                               const QModelIndex& index) const {
    const auto* edit = static_cast<const QLineEdit*>(editor);
    const bool again = edit->isModified() && edit->text() == index.data(Qt::EditRole).toString();
    QStyledItemDelegate::setModelData(editor, model, index);
    if (again) {
        emit typed_again(index);
    }
}

bool BoxDelegate::eventFilter(QObject* editor, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            auto* box = static_cast<QWidget*>(editor);
            emit commitData(box);
            emit closeEditor(box, QAbstractItemDelegate::NoHint);
            emit entered();
            return true;
        }
    }
    return QStyledItemDelegate::eventFilter(editor, event);
}

void BoxDelegate::initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const {
    QStyledItemDelegate::initStyleOption(option, index);
    const QString hint = index.data(hint_role).toString();
    if (option->text.isEmpty() && !hint.isEmpty()) {
        option->text = hint;
        option->features |= QStyleOptionViewItem::HasDisplay;
        option->palette.setColor(QPalette::Text, option->palette.color(QPalette::PlaceholderText));
    }
}

} // namespace rodway
