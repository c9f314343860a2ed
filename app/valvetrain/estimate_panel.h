#pragma once

#include "app/valvetrain/stated_dialog.h"
#include "app/valvetrain/train_panel.h"
#include "app/work/newest_request.h"

class QLabel;
class QPushButton;

namespace rodway {

class RowTable;
class WorkBar;

/// A panel of figures for every valve that rest on what a set-up states besides its places: what
/// they are, a button to state it, a row for each valve, and more words on the one selected.
class EstimatePanel : public TrainPanel {
    Q_OBJECT

  public:
    /// Whose set-up is stated in; null where there is none.
    void set_build(ShopSession* session, std::int64_t build_id);
    [[nodiscard]] bool busy() const { return request_.busy(); }

  signals:
    void failed(const QString& why);
    void said(const QString& what);

  protected:
    struct Words {
        const char* name; ///< of the panel's widgets, such as "motion"
        QString working;
        QString state; ///< the button's words
        QString table;
        QStringList columns;
    };
    EstimatePanel(ValvetrainModel* model, const Words& words, QWidget* parent);

    /// Works the figures out anew, `request_` beside the window.
    virtual void ask() = 0;
    virtual void forget() = 0;
    /// Words on the valve selected.
    [[nodiscard]] virtual QString of_valve() const = 0;
    /// The valve of a row of the table, and how many rows it has.
    [[nodiscard]] virtual std::vector<ValvePosition> rows() const = 0;
    /// Opens the boxes in which it is stated.
    virtual void state(ShopSession& session, const SetUpRecord& set_up) = 0;

    void show_valve() override;
    void show_rows(const QString& about, const std::vector<QStringList>& rows);
    /// A least clearance as the survey has it, to the thousandth.
    [[nodiscard]] QString stands(const ValvePosition& valve) const;

    NewestRequest request_;
    WorkBar* work_;
    QLabel* about_;
    RowTable* table_;

  private:
    void state_clicked();
    void show_selected();

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    QPushButton* state_;
    QLabel* of_valve_;
    std::shared_ptr<const Engine> engine_; ///< of which the figures are
    std::optional<SetUpFields> fields_;    ///< and what was stated with it
};

} // namespace rodway
