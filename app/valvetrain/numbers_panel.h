#pragma once

#include <QWidget>

class QLabel;
class QToolButton;

namespace rodway {

class ValvetrainModel;

/// The selected valve's figures in words: least clearance with the engine's doubt, where and when,
/// the verdict with its reason. The search's own bound stands under details.
class NumbersPanel : public QWidget {
    Q_OBJECT

  public:
    explicit NumbersPanel(const ValvetrainModel* model, QWidget* parent = nullptr);
    void refresh();

  private:
    const ValvetrainModel* model_;
    QLabel* title_;
    QLabel* least_;
    QLabel* verdict_;
    QLabel* figures_;
    QLabel* now_;
    QToolButton* more_;
    QLabel* details_;
};

} // namespace rodway
