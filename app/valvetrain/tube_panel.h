#pragma once

#include "app/valvetrain/train_panel.h"
#include "app/valvetrain/tube_pictures.h"
#include "render/palette.h"

class QComboBox;
class QSlider;

namespace rodway {

class TubeView;

/// Down the tube of the selected valve, or down another of its passages, cut at a chosen depth.
class TubePanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit TubePanel(ValvetrainModel* model, QWidget* parent = nullptr);

    void set_theme(Theme theme);
    /// What is looked at now; of the selected valve.
    [[nodiscard]] TubeChoice choice() const;

  protected:
    void show_valve() override;
    void show_crank() override;

  private:
    void choose_depth(std::optional<double> depth_mm);

    QComboBox* passage_;
    QSlider* depth_;
    TubeView* view_;
    std::optional<ValvePosition> shown_; ///< whose passages are offered
    std::optional<double> depth_mm_;     ///< empty: where the rod is closest
};

} // namespace rodway
