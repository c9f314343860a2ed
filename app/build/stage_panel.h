#pragma once

#include "app/build/build_panel.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace rodway {

class AskPanel;
class WordListView;

/// The stage chosen in the rail: its steps to tick, and of the step in hand all that belongs to
/// it: how it is done, its sheet, its parts, what it waits for, what was noted of it.
class StagePanel : public BuildPanel {
    Q_OBJECT

  public:
    explicit StagePanel(Clock clock, QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void show_build(const BuildShown& shown, std::int64_t stage_id) override;
    [[nodiscard]] std::int64_t step_id() const;
    [[nodiscard]] AskPanel& not_needed() { return *not_needed_; }

  signals:
    void sheet_wanted(const QString& kind);
    void parts_wanted();
    void gates_wanted();
    /// Notes and photos of the step in hand.
    void remarks_wanted(qint64 step_id);

  protected:
    void changeEvent(QEvent* event) override;

  private:
    QWidget* make_steps();
    QWidget* make_step();
    void show_steps();
    void show_step();
    void show_parts(const Step& step);
    void show_waits(const Step& step);
    void tick(std::int64_t step_id, bool ticked);
    void take_in_again();
    [[nodiscard]] const Step* step_in_hand() const;
    [[nodiscard]] QString step_text(const Step& step, bool waits) const;
    [[nodiscard]] QString waits_for(const Step& step) const;

    const BuildShown* shown_ = nullptr;
    std::int64_t stage_id_ = 0;
    QLabel* title_;
    QLabel* caution_;
    QLabel* standing_;
    QPushButton* to_gates_;
    WordListView* steps_;
    QLabel* step_title_;
    QLabel* step_state_;
    QLabel* step_caution_;
    QLabel* detail_;
    QPushButton* sheet_;
    QLabel* parts_;
    QPushButton* to_parts_;
    QLabel* waits_;
    QLabel* remarks_;
    QPushButton* to_remarks_;
    QPushButton* leave_out_;
    QPushButton* take_in_;
    AskPanel* not_needed_;
};

} // namespace rodway
