#pragma once

#include <QDialog>

#include "core/build/records.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

/// Asks for what a build begins with. A set-up file that is wrong is refused here, with the reason.
class NewBuildDialog : public QDialog {
    Q_OBJECT

  public:
    explicit NewBuildDialog(QWidget* parent = nullptr);
    [[nodiscard]] Build build() const;
    [[nodiscard]] const SetUpFields& fields() const { return fields_; }

  private:
    void check();
    void read_set_up();

    QLineEdit* name_;
    QLineEdit* customer_;
    QLineEdit* engine_;
    QLineEdit* promised_;
    QLineEdit* set_up_;
    QLabel* trouble_;
    QPushButton* good_;
    SetUpFields fields_;
    bool set_up_good_ = true;
};

} // namespace rodway
