#pragma once

#include <QDialog>

#include "app/edit_stack/shop_session.h"

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

/// Erases who a customer is, after saying what that means: nothing brings it back, and what left
/// the shop file before still has it. Only the word it asks for sets it going.
class EraseDialog : public QDialog {
    Q_OBJECT

  public:
    EraseDialog(ShopSession& session, std::int64_t customer_id, const QString& name,
                QWidget* parent = nullptr);

    /// What it came to, for whoever asked: empty if nothing was erased.
    [[nodiscard]] const QString& outcome() const { return outcome_; }

    /// The word that must be typed.
    [[nodiscard]] static QString word();

  private:
    void erase();
    void delete_copies(QStringList& lines);

    ShopSession& session_;
    std::int64_t customer_id_;
    QStringList copies_;
    QString outcome_;
    QLabel* trouble_;
    QCheckBox* copies_too_;
    QLineEdit* typed_;
    QPushButton* erase_;
};

} // namespace rodway
