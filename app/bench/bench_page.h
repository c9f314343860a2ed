#pragma once

#include <QTimer>
#include <cstdint>
#include <string>

#include "app/bench/bench_model.h"
#include "app/bench/bench_place.h"
#include "app/bench/bench_standings.h"
#include "app/bench/bench_table.h"
#include "app/edit_stack/shop_session.h"
#include "app/window/place_page.h"
#include "app/work/clock.h"
#include "app/work/running_clock.h"
#include "app/work/shop_reader.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTabBar;

namespace rodway {

class TodayPanel;

/// The Bench: every build as one row, with a rail of its stages, what holds it up, what to do next
/// and the promised date; beside it what is due today. Enter or a double click opens the build.
class BenchPage : public PlacePage {
    Q_OBJECT

  public:
    explicit BenchPage(Clock clock = now_utc, QWidget* parent = nullptr);
    ~BenchPage() override;

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    /// The build of the selected row, 0 for none.
    [[nodiscard]] qint64 selected_build() const;
    [[nodiscard]] BenchTable* table() const { return table_; }
    [[nodiscard]] BenchModel& model() { return model_; }
    [[nodiscard]] BenchStandings& standings() { return standings_; }
    [[nodiscard]] TodayPanel& today() { return *today_; }
    void show_backup(const QString& words);

  signals:
    void build_opened(qint64 id);
    void new_build_wanted();
    void place_wanted(qint64 build_id, const rodway::BenchPlace& place);
    /// Something happened by itself that somebody may wait for.
    void noted(const QString& text);

  protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QWidget* make_filters();
    QWidget* make_rows();
    QWidget* make_buttons();
    void connect_rows();
    [[nodiscard]] BenchRequest request() const;
    /// Reads the rows anew. What is asked for is another list: from its top.
    void show_rows(bool from_top);
    void select(int row);
    void show_empty();
    void show_buttons();
    void want_seen();
    void open_held(int row, int line);
    void show_held_menu();
    void put_away_selected();
    void look_at_clock();
    void wait_for_clock();
    [[nodiscard]] const BenchRow* selected() const;

    Clock clock_;
    ShopSession* session_ = nullptr;
    bool stale_ = false; ///< something changed while nobody looked
    std::string until_;  ///< UTC: from then on time alone changes what is shown
    ShopReader reader_;
    BenchStandings standings_;
    BenchModel model_;
    QTimer want_soon_;
    QTimer typed_;
    QTimer clock_timer_;

    QTabBar* filter_;
    QLineEdit* text_;
    QComboBox* order_;
    QLabel* count_;
    QStackedWidget* stack_;
    BenchTable* table_;
    QLabel* empty_;
    QPushButton* empty_action_;
    QPushButton* open_;
    QPushButton* held_;
    QPushButton* put_away_;
    TodayPanel* today_;
};

} // namespace rodway
