#pragma once

#include <optional>
#include <vector>

#include "app/valvetrain/train_panel.h"
#include "app/work/newest_request.h"
#include "core/clearance/causes.h"
#include "core/clearance/cure_size.h"

class QComboBox;
class QLabel;

namespace rodway {

class RowTable;
class WorkBar;

/// Why the selected valve's least clearance is what it is: what each dimension does to it, at which
/// wall and with what held; how much of it alone would make it pass; and what its doubt is made of.
class CausesPanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit CausesPanel(ValvetrainModel* model, QWidget* parent = nullptr);
    /// Whether the cures' sizes are still being worked out.
    [[nodiscard]] bool busy() const { return request_.busy(); }

  protected:
    void show_valve() override;

  private:
    /// A cause and how much of it alone would do; nothing where it can't be held so.
    struct Sized {
        Cause cause;
        std::optional<CureSize> cure;
    };
    struct Sizes {
        std::vector<Sized> causes;
    };
    [[nodiscard]] Held held() const;
    void show_causes(const MinimumCauses& found, const Engine& engine);
    void ask_sizes();
    void show_sizes(const Sizes& sizes, double wanted_mm);
    void show_doubt();

    QLabel* where_;
    QComboBox* held_;
    QLabel* aim_;
    RowTable* table_;
    WorkBar* work_;
    QLabel* doubt_title_;
    RowTable* doubt_;
    std::vector<Cause> shown_; ///< one for each row
    NewestRequest request_;
};

} // namespace rodway
