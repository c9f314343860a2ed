#pragma once

#include <QStyledItemDelegate>

namespace rodway {

/// The editor of a box: Enter keeps at once, before any other key is dealt with, so that fast
/// typing never lands in the box before.
class BoxDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    /// Item data with this role stands faintly in an empty box.
    static constexpr int hint_role = Qt::UserRole;
    /// A box for which it is true has a filled corner: its number stands apart from its row.
    static constexpr int odd_role = Qt::UserRole + 1;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model,
                      const QModelIndex& index) const override;

  signals:
    void entered();
    /// The words that stand in the box already were typed once more: the model sees no change.
    void typed_again(const QModelIndex& index) const;
    void typing(const QString& text) const;

  protected:
    bool eventFilter(QObject* editor, QEvent* event) override;
    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override;
};

} // namespace rodway
