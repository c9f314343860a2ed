#pragma once

#include "app/valvetrain/estimate_panel.h"
#include "core/clearance/running_clearance.h"

namespace rodway {

/// In motion: what bowed rods leave under the load of spring and inertia, valve by valve.
class MotionPanel : public EstimatePanel {
    Q_OBJECT

  public:
    explicit MotionPanel(ValvetrainModel* model, QWidget* parent = nullptr);
    [[nodiscard]] const std::vector<ValveInMotion>& valves() const { return valves_; }

  protected:
    void ask() override;
    void forget() override;
    [[nodiscard]] QString of_valve() const override;
    [[nodiscard]] std::vector<ValvePosition> rows() const override;
    void state(ShopSession& session, const SetUpRecord& set_up) override;

  private:
    std::vector<ValveInMotion> valves_;
};

} // namespace rodway
