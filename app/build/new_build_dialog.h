#pragma once

#include <QDialog>

#include "app/work/stage_plans.h"
#include "core/build/records.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

/// Asks for what a build begins with. A set-up file that is wrong is refused here, with the reason.
class NewBuildDialog : public QDialog {
    Q_OBJECT

  public:
    /// `plans`: those that a build may begin with; the usual one is chosen.
    explicit NewBuildDialog(const std::vector<KnownPlan>& plans, QWidget* parent = nullptr);
    [[nodiscard]] Build build() const;
    [[nodiscard]] const SetUpFields& fields() const { return fields_; }
    /// Word of the plan it begins with.
    [[nodiscard]] std::string plan() const;

  private:
    void check();
    void read_set_up();
    void show_about();

    QLineEdit* name_;
    QLineEdit* customer_;
    QLineEdit* engine_;
    QLineEdit* promised_;
    QLineEdit* set_up_;
    QComboBox* plan_;
    QLabel* about_plan_;
    QLabel* trouble_;
    QPushButton* good_;
    SetUpFields fields_;
    bool set_up_good_ = true;
};

} // namespace rodway
