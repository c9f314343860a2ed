#pragma once

#include "app/valvetrain/train_panel.h"

class QLabel;
class QToolButton;

namespace rodway {

/// The selected valve's figures in words: least clearance with the engine's doubt, where and when,
/// the verdict with its reason, the train's angles, ratio and sweep. While something is tried, what
/// is as it stands is beside it. The search's own bound stands under details.
class NumbersPanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit NumbersPanel(ValvetrainModel* model, QWidget* parent = nullptr);

  protected:
    void show_valve() override;
    void show_crank() override;

  private:
    QLabel* add_label(const char* name);

    QLabel* title_;
    QLabel* least_;
    QLabel* verdict_;
    QLabel* figures_;
    QLabel* now_;
    QToolButton* more_;
    QLabel* details_;
};

} // namespace rodway
