#pragma once

#include "app/valvetrain/barring_stops.h"
#include "app/valvetrain/train_panel.h"

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;

namespace rodway {

class RowTable;

/// Turning the engine by hand: which valves are open now, where to loosen a rocker shaft, the order
/// of full lift, and stops for the lash; which way and how far to turn from here. Choosing a line
/// turns the crank there.
class BarringPanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit BarringPanel(ValvetrainModel* model, QWidget* parent = nullptr);
    void show_task(BarringTask task);

  protected:
    void show_valve() override;
    void show_crank() override;

  private:
    [[nodiscard]] BarringTask task() const;
    void make_list();
    void start_here();
    void go_to(int row);
    /// How far to turn from here to a line's stop.
    [[nodiscard]] QString turn_text(const BarringStop& stop) const;
    void say_turn();

    QComboBox* task_;
    QDoubleSpinBox* margin_;
    QLabel* margin_label_;
    QPushButton* start_;
    QLabel* turning_;
    RowTable* table_;
    QLabel* turn_;
    QLabel* notes_;
    BarringList list_;
    CrankAngle from_; ///< where the walk starts
};

} // namespace rodway
