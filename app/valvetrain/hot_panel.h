#pragma once

#include "app/valvetrain/estimate_panel.h"
#include "core/clearance/hot_and_cold.h"

namespace rodway {

/// Hot and cold: what lash and clearance become as the engine warms, valve by valve.
class HotPanel : public EstimatePanel {
    Q_OBJECT

  public:
    explicit HotPanel(ValvetrainModel* model, QWidget* parent = nullptr);
    [[nodiscard]] const std::optional<HotAndCold>& found() const { return found_; }

  protected:
    void ask() override;
    void forget() override;
    [[nodiscard]] QString of_valve() const override;
    [[nodiscard]] std::vector<ValvePosition> rows() const override;
    void state(ShopSession& session, const SetUpRecord& set_up) override;

  private:
    std::optional<HotAndCold> found_;
};

} // namespace rodway
