#pragma once

#include <QDialog>

#include "app/work/own_sheet.h"

class QLabel;
class QLineEdit;
class QTableWidget;

namespace rodway {

/// Asks for a sheet of the shop's own: its title, and line by line what is read, in which unit,
/// where, and what it may be. Empty lines count for nothing.
class OwnSheetDialog : public QDialog {
    Q_OBJECT

  public:
    explicit OwnSheetDialog(QWidget* parent = nullptr);
    [[nodiscard]] OwnSheet sheet() const;
    /// Shows why the sheet was refused; what was typed stays.
    void refuse(const QString& why);

  private:
    void add_line();
    void fill_units(int row);

    QLineEdit* title_;
    QTableWidget* lines_;
    QLabel* trouble_;
};

} // namespace rodway
