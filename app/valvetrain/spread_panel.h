#pragma once

#include <QTimer>
#include <atomic>
#include <memory>
#include <optional>

#include "app/valvetrain/train_panel.h"
#include "app/work/newest_request.h"
#include "core/clearance/build_spread.h"

class QLabel;
class QPushButton;
class QSpinBox;

namespace rodway {

class RowTable;
class WorkBar;

/// How every valve's least clearance differs over many builds, drawn as the set-up says that its
/// sizes may differ. Drawn when it is asked for.
class SpreadPanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit SpreadPanel(ValvetrainModel* model, QWidget* parent = nullptr);
    [[nodiscard]] bool busy() const { return request_.busy(); }
    [[nodiscard]] const std::optional<BuildSpread>& spread() const { return spread_; }

  protected:
    void show_valve() override;

  private:
    struct Drawn {
        Result<BuildSpread> spread;
    };
    void draw();
    void show_spread(const SpreadRequest& request);
    void show_row();

    QSpinBox* builds_;
    QSpinBox* seed_;
    QPushButton* draw_;
    WorkBar* work_;
    QLabel* about_;
    RowTable* table_;
    std::shared_ptr<const Engine> engine_; ///< of which the spread is
    std::optional<BuildSpread> spread_;
    std::shared_ptr<std::stop_source> stop_;
    NewestRequest request_;
};

} // namespace rodway
