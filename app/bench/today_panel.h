#pragma once

#include <QWidget>
#include <string>
#include <vector>

#include "app/bench/today_list.h"
#include "app/work/running_clock.h"
#include "app/work/shop_reader.h"

class QLabel;
class QListWidget;
class QStackedWidget;

namespace rodway {

/// What is due today across all builds, and how old the last backup is. Enter or a double click
/// goes to where a line is dealt with.
class TodayPanel : public QWidget {
    Q_OBJECT

  public:
    /// The reader outlives this.
    TodayPanel(ShopReader& reader, Clock clock, QWidget* parent = nullptr);

    /// Another shop, or none: cures that finished before now aren't told.
    void begin();
    /// Asks for the list as of now.
    void refresh();
    void show_backup(const QString& words);
    [[nodiscard]] QListWidget& list() { return *list_; }

  signals:
    void place_wanted(qint64 build_id, const rodway::BenchPlace& place);
    /// A cure has finished by its label since the last look: told once.
    void cured(const QString& text);
    /// The list is as of now; time alone changes it from `until_utc` on. Empty: it couldn't be
    /// read.
    void shown(const std::string& until_utc);

  private:
    void take(Result<TodayList> answer);
    void show_lines();

    ShopReader& reader_;
    Clock clock_;
    std::string seen_utc_; ///< until then finished cures are told
    bool asked_ = false;
    bool again_ = false; ///< something changed since it was asked for
    std::vector<TodayLine> lines_;
    QString trouble_; ///< why the list couldn't be read

    QLabel* title_;
    QStackedWidget* stack_;
    QListWidget* list_;
    QLabel* nothing_;
    QLabel* backup_;
};

} // namespace rodway
