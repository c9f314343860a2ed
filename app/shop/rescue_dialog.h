#pragma once

#include <QDialog>

#include "app/work/newest_request.h"

class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace rodway {

/// Makes a new shop file of what can be read from a damaged one, and says what came through.
class RescueDialog : public QDialog {
    Q_OBJECT

  public:
    /// `damaged`: the file that is meant at first; may be empty.
    explicit RescueDialog(const QString& damaged, QWidget* parent = nullptr);

    /// Path of the new file if it was made and is to be opened; else empty.
    [[nodiscard]] QString to_open() const { return to_open_; }

  private:
    QLineEdit* add_file(const QString& label, const char* name, bool save);
    void start();

    QString to_open_;
    NewestRequest rescuing_;
    QLineEdit* damaged_;
    QLineEdit* target_;
    QLabel* trouble_;
    QListWidget* outcome_;
    QPushButton* start_;
    QPushButton* open_;
};

} // namespace rodway
