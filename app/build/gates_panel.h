#pragma once

#include <map>

#include "app/build/build_panel.h"
#include "app/build/word_list_view.h"

class QLabel;
class QPushButton;

namespace rodway {

class AskPanel;

/// The gates of the stage chosen in the rail: each with what it waits for, and what holds that. The
/// stage is signed off here, one hold waived, a sign-off withdrawn.
class GatesPanel : public BuildPanel {
    Q_OBJECT

  public:
    explicit GatesPanel(Clock clock, QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void show_build(const BuildShown& shown, std::int64_t stage_id) override;

  signals:
    void sheet_wanted(const QString& kind);
    void parts_wanted();
    void cures_wanted();
    void items_wanted();
    void account_wanted();
    void valvetrain_wanted();

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void make_asks();
    void show_state();
    void show_gates();
    void show_chosen();
    void open_sign_off();
    void go_to_hold();
    Result<Done> keep_waiver();
    Result<Done> keep_sign_off();
    Result<Done> keep_withdrawal();
    std::vector<WordListView::Row> gate_rows();
    void add_holds(std::vector<WordListView::Row>& rows, const std::vector<Hold>& holds, int level);
    [[nodiscard]] const StageShown* standing() const;
    [[nodiscard]] const Hold* chosen_hold() const;
    [[nodiscard]] const SignOff* signed_off() const;

    const BuildShown* shown_ = nullptr;
    std::int64_t stage_id_ = 0;
    std::map<qint64, Hold> holds_; ///< by row
    Hold waiving_;                 ///< the hold in the form
    QLabel* title_;
    QLabel* state_;
    WordListView* gates_;
    QLabel* chosen_; ///< of the chosen hold: whether it may be waived, and by whom it was
    QPushButton* go_to_;
    QPushButton* waive_;
    QPushButton* sign_;
    QPushButton* withdraw_;
    QLabel* in_the_way_;
    AskPanel* waiver_;
    AskPanel* sign_off_;
    AskPanel* withdrawal_;
};

} // namespace rodway
