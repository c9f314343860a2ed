#pragma once

#include <vector>

#include "app/valvetrain/train_panel.h"
#include "render/palette.h"

class QComboBox;
class QGridLayout;
class QToolButton;

namespace rodway {

class ClearanceCurve;

/// Clearance against crank for one valve or several, valve lift under it. A click or drag in it
/// turns the crank.
class CurvePanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit CurvePanel(ValvetrainModel* model, QWidget* parent = nullptr);
    void set_theme(Theme theme);
    /// The valves drawn, in the engine's order.
    [[nodiscard]] std::vector<ValvePosition> valves() const;

  protected:
    void show_valve() override;
    void show_crank() override;

  private:
    enum class Which { this_valve, cylinder, bank, chosen, all };
    void offer_valves();
    [[nodiscard]] Which which() const;

    ClearanceCurve* curve_;
    QComboBox* which_;
    QWidget* choice_;
    QGridLayout* choice_grid_;
    std::vector<QToolButton*> buttons_; ///< one for each train, in the engine's order
    std::vector<ValvePosition> offered_;
};

} // namespace rodway
