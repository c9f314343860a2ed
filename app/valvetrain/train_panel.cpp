#include "app/valvetrain/train_panel.h"

namespace rodway {

TrainPanel::TrainPanel(ValvetrainModel* model, QWidget* parent) : QWidget(parent), model_(model) {
    connect(model_, &ValvetrainModel::answered, this, &TrainPanel::refresh);
    connect(model_, &ValvetrainModel::selection_changed, this, &TrainPanel::refresh);
    connect(model_, &ValvetrainModel::crank_changed, this, &TrainPanel::turn);
}

void TrainPanel::refresh() {
    out_of_date_ = true;
    if (isVisible()) {
        out_of_date_ = false;
        show_valve();
        show_crank();
    }
}

void TrainPanel::turn() {
    if (isVisible() && !out_of_date_) {
        show_crank();
    }
}

void TrainPanel::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

} // namespace rodway
