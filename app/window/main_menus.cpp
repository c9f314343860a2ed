#include <QFileDialog>
#include <QFileInfo>
#include <QMenuBar>
#include <QToolButton>

#include "app/book/bench_prints.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/valvetrain/view_bar.h"
#include "app/window/main_window.h"
#include "app/window/place_page.h"
#include "app/work/backup_keeper.h"

// The window's menus, and the files they ask for.

namespace rodway {
namespace {

constexpr const char* shop_filter =
    QT_TRANSLATE_NOOP("rodway::MainWindow", "Shop files (*.rodway);;All files (*)");

} // namespace

void MainWindow::make_menus() {
    make_shop_menu();
    QMenu* edit = menuBar()->addMenu(tr("&Edit"));
    undo_ = edit->addAction(tr("Undo"), QKeySequence::Undo, this, [this] { take_back(false); });
    redo_ = edit->addAction(tr("Redo"), QKeySequence::Redo, this, [this] { take_back(true); });

    edit->addSeparator();
    need_shop_ << edit->addAction(tr("&Find…"), QKeySequence::Find, this, &MainWindow::go_to_find);

    make_build_menu();
    QMenu* go = menuBar()->addMenu(tr("&Go"));
    int number = 0;
    for (const Place& place : places_) {
        PlacePage* const page = place.page;
        // Ten keys for the first ten places; the others have their menu entry.
        constexpr int keys = 10;
        const QKeySequence key =
            ++number <= keys ? QKeySequence(tr("Ctrl+%1").arg(number % keys)) : QKeySequence();
        QString name = place.button->text();
        go->addAction(name.replace('\n', ' '), key, this, [this, page] { go_to(page); });
    }
}

void MainWindow::make_shop_menu() {
    QMenu* shop = menuBar()->addMenu(tr("&Shop"));
    shop->addAction(tr("&Open…"), QKeySequence::Open, this, &MainWindow::ask_open_shop);
    shop->addAction(tr("&New…"), QKeySequence::New, this, [this] { ask_new_shop(false); });
    need_shop_ << shop->addAction(tr("&Who is working…"), Qt::Key_F2, this,
                                  &MainWindow::choose_who);
    need_shop_ << shop->addAction(tr("&Back up now"), this, [this] { backups_->look(true); });
    need_writing_ << need_shop_.back();
    shop->addAction(tr("&Second backup folder…"), this, &MainWindow::ask_second_backup_folder);
    need_shop_ << shop->addAction(tr("Stage &plans…"), this, &MainWindow::edit_plans);
    need_writing_ << need_shop_.back();
    shop->addAction(tr("&Restore a backup…"), this, &MainWindow::ask_restore);
    shop->addAction(tr("Rescue a &damaged file…"), this, &MainWindow::ask_rescue);
    shop->addSeparator();
    shop->addAction(tr("&Quit"), QKeySequence::Quit, this, &QWidget::close);
}

void MainWindow::make_build_menu() {
    const auto ask_save = [this](const QString& title, const QString& name) {
        return QFileDialog::getSaveFileName(this, title, name);
    };
    QMenu* build = menuBar()->addMenu(tr("&Build"));
    need_shop_ << build->addAction(tr("&New build…"), this, &MainWindow::new_build);
    need_writing_ << need_shop_.back();
    const auto add = [&](const QString& text, auto&& run) {
        need_build_ << build->addAction(text, this, run);
    };
    build->addSeparator();
    add(tr("&Take over changes of the plan…"), [this] { take_plan_changes(); });
    need_writing_ << need_build_.back();
    build->addSeparator();
    add(tr("&Import set-up…"), [this] { ask_set_up(); });
    need_writing_ << need_build_.back();
    add(tr("&Export set-up…"), [=, this] {
        if (const QString path = ask_save(tr("Export the set-up"), tr("set-up.json"));
            !path.isEmpty()) {
            export_set_up(path);
        }
    });
    add(tr("Import &lift table…"), [this] { import_lift_table(); });
    need_writing_ << need_build_.back();
    build->addSeparator();
    add(tr("Export the whole build to a &folder…"), [=, this] {
        if (const QString path = ask_save(tr("Folder to make for the build"), tr("build"));
            !path.isEmpty()) {
            export_build_folder(path);
        }
    });
    need_shop_ << build->addAction(tr("Import a build from a f&older…"), this, [this] {
        if (const QString path =
                QFileDialog::getExistingDirectory(this, tr("Folder of an exported build"));
            !path.isEmpty()) {
            import_build_folder(path);
        }
    });
    need_writing_ << need_shop_.back();
    add(tr("Export &readings as CSV…"), [=, this] {
        if (const QString path = ask_save(tr("Write the readings"), tr("readings.csv"));
            !path.isEmpty()) {
            export_readings(path);
        }
    });
    build->addSeparator();
    add(tr("Clearance &document…"), [=, this] {
        if (const QString path = ask_save(tr("Write the clearance document"), tr("clearance.pdf"));
            !path.isEmpty()) {
            save_document(path);
        }
    });
    add(tr("3D &picture, as seen…"), [this] { valvetrain_->view_bar().ask_file(ViewFile::view); });
    make_paper_menu(build);
}

/// Papers to hang over the bench or to take along.
void MainWindow::make_paper_menu(QMenu* build) {
    QMenu* papers = build->addMenu(tr("Papers for the benc&h"));
    need_build_ << papers->addAction(tr("&Cylinders and valves…"), this, [this] {
        ask_bench_paper(plan_paper, tr("Cylinders and valves"), tr("cylinders-and-valves.pdf"));
    });
    need_build_ << papers->addAction(tr("&Torque order…"), this, [this] {
        ask_bench_paper(torque_order_paper, tr("Torque order"), tr("torque-order.pdf"));
    });
    need_shop_ << papers->addAction(tr("To &buy, all builds…"), this, &MainWindow::ask_buy_list);
    need_build_ << papers->addAction(tr("&Sheet in hand, blank…"), this,
                                     [this] { ask_sheet_file(true); });
    need_build_ << papers->addAction(tr("Sheet in hand, as it st&ands…"), this,
                                     [this] { ask_sheet_file(false); });
    need_build_ << papers->addAction(tr("Clearance &walk, blank, to the printer…"), this,
                                     [this] { print_bench_sheet(); });
}

void MainWindow::ask_open_shop() {
    const QString path =
        QFileDialog::getOpenFileName(this, tr("Open a shop file"), {}, tr(shop_filter));
    if (!path.isEmpty()) {
        open_shop(path);
    }
}

void MainWindow::ask_new_shop(bool demo) {
    const QString path = QFileDialog::getSaveFileName(
        this, tr("New shop file"), demo ? tr("demo.rodway") : tr("shop.rodway"), tr(shop_filter));
    if (!path.isEmpty()) {
        make_shop(QFileInfo(path).suffix().isEmpty() ? path + ".rodway" : path, demo);
    }
}

} // namespace rodway
