#pragma once

#include <QMainWindow>
#include <memory>
#include <vector>

#include "app/book/book_block.h"
#include "app/edit_stack/shop_session.h"
#include "app/work/clock.h"
#include "app/work/running_clock.h"
#include "core/build/records.h"

class QFileInfo;
class QLabel;
class QScrollArea;
class QMenu;
class QStackedWidget;
class QToolButton;
class QVBoxLayout;

namespace rodway {

class AccountPage;
class BackupKeeper;
class BenchPage;
class BookPage;
class BuildPage;
class ComparePage;
class DescribePage;
class FindPage;
class FirstPage;
class HistoryPage;
class KnownEnginesPage;
class PartsPage;
class PlacePage;
struct BookFacts;
struct BackupNews;
struct BenchPlace;
struct MissingFact;
class SheetsPage;
class ShopPage;
class ValvetrainPage;
class WaitingBar;
class WhoBox;

/// The program's window: places at the left, the place in hand beside them. Everything is kept as
/// it is done; nothing asks to be saved.
class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    /// `clock`: by which the window judges what is due and dates what is written down.
    explicit MainWindow(Clock clock = now_utc);
    ~MainWindow() override;

    /// Opens a shop file; an empty path means the one used last, else the first page.
    void begin(const QString& shop);
    /// False, with the reason shown, if it can't be opened; what was open stays open.
    bool open_shop(const QString& path);
    void open_build(qint64 id);
    void go_to_sheets();
    /// Null on the first page, before a shop is open.
    [[nodiscard]] PlacePage* place_in_front() const;
    [[nodiscard]] ShopSession* session() const { return session_.get(); }
    [[nodiscard]] ValvetrainPage& valvetrain() { return *valvetrain_; }
    [[nodiscard]] DescribePage& describe() { return *describe_; }
    [[nodiscard]] KnownEnginesPage& known_engines_page() { return *known_engines_; }
    [[nodiscard]] SheetsPage& sheets() { return *sheets_; }
    [[nodiscard]] BenchPage& bench() { return *bench_; }
    [[nodiscard]] BuildPage& build_page() { return *build_; }
    [[nodiscard]] ShopPage& shop_page() { return *shop_; }
    [[nodiscard]] FindPage& find_page() { return *find_; }
    [[nodiscard]] BookPage& book_page() { return *book_; }
    [[nodiscard]] HistoryPage& history_page() { return *history_; }
    void go_to_history();
    [[nodiscard]] ComparePage& compare_page() { return *compare_; }
    void go_to_compare();
    void go_to_shop();
    void go_to_find();
    /// Goes to the place where the record stands; `build_id` 0: it is the shop's, no build's.
    void go_to_record(const RecordRef& record, qint64 build_id);

    void say(const QString& text);
    void complain(const QString& text);
    /// Says something in the notice that stays until it is closed, below what stands there.
    void note(const QString& text);
    /// What is complained of at the moment; empty if nothing is.
    [[nodiscard]] QString complaint() const;

    // What the menus do, with the file already chosen.
    bool make_shop(const QString& path, bool demo);
    void import_set_up(const QString& file);
    void export_set_up(const QString& file);
    void save_document(const QString& file);
    /// The sheet in hand, blank or as it stands.
    void save_sheet(const QString& file, bool blank);
    /// A paper for the bench of the build in hand, see app/book/bench_prints.h.
    void save_bench_paper(const QString& file, BookBlocks (*make)(const BookFacts&),
                          const QString& title);
    void save_buy_list(const QString& file);
    /// The build in hand, whole, to a new folder; and the readings alone, for a spreadsheet.
    void export_build_folder(const QString& folder);
    void export_readings(const QString& file);
    /// Takes a build in from such a folder and opens it.
    void import_build_folder(const QString& folder);
    /// Puts a backup in the place of the shop that is open, which is copied first, and opens it.
    /// False, with the reason shown, if nothing was replaced.
    bool restore_backup(const QString& backup);
    /// The same for a shop that isn't open.
    bool restore_over(const QString& backup, const QString& shop);

  protected:
    bool event(QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;

  private:
    /// What the page needs before it can show anything.
    enum class Shows { the_shop, a_build };
    struct Place {
        PlacePage* page;
        QScrollArea* area; ///< in which it scrolls
        QToolButton* button;
        Shows shows;
    };

    void add_place(const QString& name, PlacePage* page, Shows shows);
    void make_menus();
    void make_shop_menu();
    void make_build_menu();
    void go_to(PlacePage* page);
    void go_to_first_page();
    void ask_open_shop();
    void ask_new_shop(bool demo);
    void take_build(qint64 id);
    void go_to_place(qint64 build_id, const BenchPlace& place);
    void go_to_missing(const MissingFact& fact);
    void show_record(PlacePage* page, const std::optional<RecordRef>& record);
    void refresh();
    void show_what_waits();
    void take_back(bool redo);
    void new_build();
    /// The same, begun from a known engine; 0: from none.
    void new_build_from(qint64 known_engine_id);
    void ask_set_up();
    void take_set_up(const QFileInfo& file, const SetUpFields& fields);
    void connect_describe_page();
    void import_lift_table();
    void make_paper_menu(QMenu* build);
    void print_bench_sheet();
    void ask_bench_paper(BookBlocks (*make)(const BookFacts&), const QString& title,
                         const QString& name);
    void ask_buy_list();
    void ask_sheet_file(bool blank);
    void new_own_sheet();
    void edit_plans();
    void take_plan_changes();
    [[nodiscard]] std::optional<Build> build_or_complain();
    void set_who(const QString& who);
    void ask_who();
    void choose_who();
    void connect_shop_page();
    void ask_restore();
    void ask_rescue();
    void let_go_of_shop();
    void ask_second_backup_folder();
    /// True, with the reason shown again, if nothing can be changed.
    bool refuse_change();
    void show_backups(const BackupNews& news);

    Clock clock_;
    std::unique_ptr<ShopSession> session_;
    std::int64_t build_id_ = 0;
    QStackedWidget* stack_;
    BenchPage* bench_;
    BuildPage* build_;
    DescribePage* describe_;
    ValvetrainPage* valvetrain_;
    SheetsPage* sheets_;
    PartsPage* parts_;
    AccountPage* account_;
    BookPage* book_;
    ShopPage* shop_;
    KnownEnginesPage* known_engines_;
    FindPage* find_;
    HistoryPage* history_;
    ComparePage* compare_;
    FirstPage* first_;
    QVBoxLayout* rail_;
    std::vector<Place> places_;
    QLabel* look_only_; ///< why nothing can be changed; there as long as that is so
    QWidget* notice_;
    QLabel* notice_text_;
    WaitingBar* waiting_;
    std::vector<std::int64_t> waits_; ///< keys of what the pages show as waiting
    WhoBox* who_;
    QLabel* backup_age_;
    BackupKeeper* backups_;
    QAction* undo_;
    QAction* redo_;
    QList<QAction*> need_build_;
    QList<QAction*> need_shop_;
    QList<QAction*> need_writing_; ///< some of both
};

} // namespace rodway
