#pragma once

#include <vector>

#include "app/build/build_panel.h"
#include "core/build/cure_state.h"

class QLabel;
class QPushButton;

namespace rodway {

class AskPanel;
class WordListView;

/// What dries or cures on the build: each with how long is still to wait. One is started from the
/// shop's products or from the times on a label, and ended by hand with why.
class CuresPanel : public BuildPanel {
    Q_OBJECT

  public:
    explicit CuresPanel(Clock clock, QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void show_build(const BuildShown& shown, std::int64_t stage_id) override;
    /// Counts down; true if one of them has come to another stage since it was shown.
    bool count_down();
    [[nodiscard]] AskPanel& starting() { return *start_; }
    [[nodiscard]] AskPanel& ending() { return *end_; }

  private:
    void make_asks();
    void show_cures();
    void show_product();
    void open_start();
    Result<Done> start();
    Result<Done> end();
    [[nodiscard]] const Cure* chosen() const;
    [[nodiscard]] QString cure_text(const Cure& cure, const CureState& state) const;

    const BuildShown* shown_ = nullptr;
    std::int64_t stage_id_ = 0;
    std::vector<CureStage> stages_shown_;
    QLabel* empty_;
    WordListView* cures_;
    QPushButton* begin_;
    QPushButton* finish_;
    AskPanel* start_;
    AskPanel* end_;
};

} // namespace rodway
