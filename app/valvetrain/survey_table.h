#pragma once

#include <QTableWidget>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/valvetrain/valvetrain_model.h"
#include "core/build/records.h"

namespace rodway {

/// Every valve's computed clearance beside what was found by hand. A clearance by hand is typed
/// into its cell; Enter keeps it and goes on to the next valve. What can't be read stays as typed.
class SurveyTable : public QTableWidget {
    Q_OBJECT

  public:
    enum Column {
        valve_column,
        computed_column,
        verdict_column,
        hand_column,
        hand_verdict_column,
        column_count
    };

    explicit SurveyTable(ValvetrainModel* model, QWidget* parent = nullptr);

    /// The build whose readings are shown and added to.
    void set_build(ShopSession* session, std::int64_t build_id,
                   std::optional<std::int64_t> set_up_id);
    void refresh();
    void show_selected();

  signals:
    void failed(const QString& text);
    void said(const QString& text);

  private:
    void keep_reading(int row);
    void go_down_from(int row);
    void judge_hand(int row);
    void say_stale(int row);
    [[nodiscard]] const ValveClearance* line_as_it_stands(const ValvePosition& valve) const;
    [[nodiscard]] QTableWidgetItem* cell(int row, int column);

    ValvetrainModel* model_;
    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::optional<std::int64_t> set_up_id_;
    bool filling_ = false;
    bool refused_ = false; ///< what was typed last could not be kept
};

} // namespace rodway
