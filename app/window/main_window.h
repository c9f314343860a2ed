#pragma once

#include <QMainWindow>
#include <memory>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/work/clock.h"
#include "app/work/running_clock.h"
#include "core/build/records.h"

class QLabel;
class QStackedWidget;
class QToolButton;
class QVBoxLayout;

namespace rodway {

class AccountPage;
class BackupKeeper;
class BenchPage;
class BuildPage;
class PartsPage;
class FirstPage;
class PlacePage;
struct BackupNews;
struct BenchPlace;
class SheetsPage;
class ValvetrainPage;
class WaitingBar;

/// The program's window: places at the left, the place in hand beside them. Everything is kept as
/// it is done; nothing asks to be saved.
class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    /// `clock`: by which the Bench judges what is due.
    explicit MainWindow(Clock clock = now_utc);
    ~MainWindow() override;

    /// Opens a shop file; an empty path means the one used last, else the first page.
    void begin(const QString& shop);
    /// False, with the reason shown, if it can't be opened; what was open stays open.
    bool open_shop(const QString& path);
    void open_build(qint64 id);
    void go_to_sheets();
    [[nodiscard]] ShopSession* session() const { return session_.get(); }
    [[nodiscard]] ValvetrainPage& valvetrain() { return *valvetrain_; }
    [[nodiscard]] SheetsPage& sheets() { return *sheets_; }
    [[nodiscard]] BenchPage& bench() { return *bench_; }

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
    void save_picture(const QString& file);
    /// The sheet in hand, blank or as it stands.
    void save_sheet(const QString& file, bool blank);

  protected:
    void closeEvent(QCloseEvent* event) override;

  private:
    /// What the page needs before it can show anything.
    enum class Shows { the_shop, a_build };
    struct Place {
        PlacePage* page;
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
    void refresh();
    void show_what_waits();
    void take_back(bool redo);
    void new_build();
    void import_lift_table();
    void print_bench_sheet();
    void ask_sheet_file(bool blank);
    void new_own_sheet();
    void edit_plans();
    void take_plan_changes();
    [[nodiscard]] std::optional<Build> build_or_complain();
    void ask_who();
    void ask_second_backup_folder();
    /// True, with the reason shown again, if nothing can be changed.
    bool refuse_change();
    void show_backups(const BackupNews& news);

    std::unique_ptr<ShopSession> session_;
    std::int64_t build_id_ = 0;
    QStackedWidget* stack_;
    BenchPage* bench_;
    BuildPage* build_;
    ValvetrainPage* valvetrain_;
    SheetsPage* sheets_;
    PartsPage* parts_;
    AccountPage* account_;
    FirstPage* first_;
    QVBoxLayout* rail_;
    std::vector<Place> places_;
    QLabel* look_only_; ///< why nothing can be changed; there as long as that is so
    QWidget* notice_;
    QLabel* notice_text_;
    WaitingBar* waiting_;
    std::vector<std::int64_t> waits_; ///< keys of what the pages show as waiting
    QLabel* who_;
    QLabel* backup_age_;
    BackupKeeper* backups_;
    QAction* undo_;
    QAction* redo_;
    QList<QAction*> need_build_;
    QList<QAction*> need_shop_;
    QList<QAction*> need_writing_; ///< some of both
};

} // namespace rodway
