#pragma once

#include <QWidget>

#include "app/valvetrain/valvetrain_model.h"

namespace rodway {

/// One panel of the valvetrain, of the model's one selected valve at its one crank angle. It works
/// only while it is seen, and catches up when it is.
class TrainPanel : public QWidget {
    Q_OBJECT

  public:
    explicit TrainPanel(ValvetrainModel* model, QWidget* parent = nullptr);

    /// What it shows may be out of date.
    void refresh();

  protected:
    /// Engine, survey or selection are new.
    virtual void show_valve() = 0;
    virtual void show_crank() {}
    void showEvent(QShowEvent* event) override;

    ValvetrainModel* model_;

  private:
    void turn();

    bool out_of_date_ = true;
};

} // namespace rodway
