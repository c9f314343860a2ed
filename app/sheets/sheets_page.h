#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/window/place_page.h"
#include "app/work/build_sheets.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QStackedWidget;
class QTabBar;

namespace rodway {

class SheetTable;

/// The measurement sheets of one build: the kinds at the left with how far each is filled, the
/// sheet in hand to type into, and beside it what the selected line means, its limit, and what
/// follows from the readings.
class SheetsPage : public PlacePage {
    Q_OBJECT

  public:
    explicit SheetsPage(QWidget* parent = nullptr);
    ~SheetsPage() override;

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] bool shows(RecordKind kind) const override;
    void go_to_record(const RecordRef& record) override;
    void open_kind(const std::string& kind);
    [[nodiscard]] const std::string& kind() const { return kind_; }
    [[nodiscard]] EntryOrder order() const;
    [[nodiscard]] SheetTable& table() { return *table_; }

  signals:
    /// The sheet in hand is wanted on paper, blank or as it stands.
    void print_wanted(bool blank);
    void own_sheet_wanted();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    QWidget* make_left();
    QWidget* make_middle();
    QWidget* make_right();
    void show_kinds();
    void show_places();
    void show_table();
    void show_spot();
    void show_typing(const QString& text);
    void show_findings();
    void fill_instruments();
    bool keep(const Quantity& quantity, const std::string& position, const QString& text);
    std::optional<std::string> add_position(const QString& text);
    void keep_limit();
    void keep_note();
    void go_to_box(const std::string& quantity, const std::string& position);
    [[nodiscard]] QString title_of(const std::string& id) const;
    [[nodiscard]] Place place() const;

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::unique_ptr<BuildSheets> sheets_;
    AssessedSheet sheet_;
    std::string kind_;
    std::vector<Place> places_;
    /// Positions that were typed and have no reading yet, by kind and place.
    std::map<std::pair<std::string, Place>, std::vector<std::string>> added_;
    bool filling_ = false;

    QListWidget* kinds_;
    QLabel* title_;
    QLabel* about_;
    QTabBar* tabs_;
    QComboBox* order_;
    QComboBox* instrument_;
    SheetTable* table_;
    QLabel* line_title_;
    QLabel* line_meaning_;
    QLabel* line_state_;
    QLineEdit* low_;
    QLineEdit* high_;
    QLineEdit* source_;
    QComboBox* limit_for_;
    QLineEdit* note_;
    QListWidget* findings_;
    QStackedWidget* stack_;
};

} // namespace rodway
