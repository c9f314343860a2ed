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
class QTabWidget;

namespace rodway {

class BeforePanel;
class BoxPanel;
class LimitPanel;
class RemarksPanel;
class RowPanel;
class SheetPicture;
class SheetTable;

/// The measurement sheets of one build: the kinds at the left with how far each is filled, the
/// sheet in hand to type into with a picture of where on the engine that is, and beside it what the
/// box in hand means, what follows, limits, rows, earlier builds, notes and photos.
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

    /// Asks for a dyno pull's file, shows what is in it, and keeps it.
    void import_pull();

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
    void show_aside();
    void show_remarks();
    void go_to(const std::string& position, bool type);
    void fill_instruments();
    bool keep(const Quantity& quantity, const std::string& position, const QString& text);
    void add_position();
    void go_to_sheet();
    void keep_limit(LimitRecord limit);
    void remove_limit(std::int64_t id);
    void keep_note(const QString& text);
    void keep_remark(const QString& text, const std::string& position);
    void keep_photos(const QStringList& files, const std::string& position);
    /// Says why something wasn't kept; true if it is in the file, or waits to be.
    template <typename Value>
    bool told(const Result<Value>& done);
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
    QPushButton* import_pull_;
    SheetTable* table_;
    QLineEdit* another_;
    BoxPanel* box_;
    SheetPicture* picture_;
    QTabWidget* aside_;
    QListWidget* findings_;
    LimitPanel* limits_;
    RowPanel* rows_;
    BeforePanel* before_;
    RemarksPanel* remarks_;
    QStackedWidget* stack_;
};

} // namespace rodway
