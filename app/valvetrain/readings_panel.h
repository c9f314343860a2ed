#pragma once

#include <optional>
#include <vector>

#include "app/command_line/fit_answer.h"
#include "app/edit_stack/shop_session.h"
#include "app/valvetrain/train_panel.h"
#include "app/work/newest_request.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QPushButton;

namespace rodway {

class RowTable;
class WorkBar;

/// Gaps felt between the selected valve's rod and the wall of its passage, where the passage stands
/// by them, and which one more reading would help most. The place may be taken as a new set-up.
class ReadingsPanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit ReadingsPanel(ValvetrainModel* model, QWidget* parent = nullptr);

    void set_build(ShopSession* session, std::int64_t build_id);
    [[nodiscard]] bool busy() const { return request_.busy(); }
    /// The fit that is shown; nothing while it is being worked out, or if there is none.
    [[nodiscard]] const std::optional<FitAnswer>& answer() const { return answer_; }

  signals:
    void failed(const QString& text);
    void said(const QString& text);

  protected:
    void show_valve() override;
    void show_crank() override;

  private:
    struct Fitted {
        Result<FitAnswer> answer;
    };
    QWidget* make_entry();
    QWidget* make_stated();
    void offer_passages();
    [[nodiscard]] FitOptions options() const;
    [[nodiscard]] Result<Reading> typed_reading() const;
    void keep_reading();
    void complain(const Error& error);
    void fit();
    void show_readings(const FitAnswer& prepared);
    void show_fit();
    void accept();

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    QLabel* title_;
    QComboBox* passage_;
    QComboBox* turn_;
    QComboBox* end_;
    QLineEdit* clock_;
    QLineEdit* felt_;
    QLabel* trouble_;
    RowTable* table_;
    QLineEdit* sideways_;
    QLineEdit* lean_;
    WorkBar* work_;
    QPlainTextEdit* outcome_;
    QPushButton* accept_;
    std::optional<FitAnswer> answer_;
    NewestRequest request_;
};

} // namespace rodway
