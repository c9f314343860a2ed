#pragma once

#include <map>
#include <optional>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/window/place_page.h"
#include "db/build_records.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QTabWidget;
class QTableWidget;
class QTreeWidget;

namespace rodway {

class UndoPanel;

/// Who did what, and when: every act of the build in hand or of the shop's own records, newest
/// first, those taken back among them. Beside it the act in hand field by field, the record as it
/// stood on a day, and what can be taken back or done again.
class HistoryPage : public PlacePage {
    Q_OBJECT

  public:
    explicit HistoryPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    /// Shows the record as it stood at the end of a day, ISO, by this computer's calendar.
    void show_as_of(const QString& day);
    [[nodiscard]] UndoPanel& undo_panel() { return *undo_; }

  signals:
    void record_wanted(const rodway::RecordRef& record, qint64 build_id);

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    QWidget* make_acts();
    QWidget* make_details();
    QWidget* make_record();
    void load();
    void fill_acts();
    void show_act();
    void show_records(std::int64_t act, const QString& heading);
    void go_there();
    void show_then();
    [[nodiscard]] std::int64_t owner() const;
    [[nodiscard]] const Act* act_in_hand() const;

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::vector<Act> acts_; ///< newest first
    std::vector<QString> summaries_;
    std::map<std::int64_t, std::int64_t> taken_back_by_;
    RecordTexts now_;
    std::optional<std::pair<std::int64_t, std::int64_t>> loaded_; ///< owner and last act
    std::vector<std::size_t> shown_;                              ///< of `acts_`, by row
    RecordTexts then_;
    QComboBox* scope_;
    QLineEdit* filter_;
    QLabel* state_;
    QTableWidget* table_;
    QTabWidget* tabs_;
    QListWidget* details_;
    QPushButton* go_;
    QPushButton* then_button_;
    QLineEdit* day_;
    QLabel* record_state_;
    QTreeWidget* record_;
    UndoPanel* undo_;
};

/// By which later act each act stands taken back; an undone undo leaves its act in force. `acts` in
/// any order, all of one history.
[[nodiscard]] std::map<std::int64_t, std::int64_t> taken_back_by(const std::vector<Act>& acts);

} // namespace rodway
