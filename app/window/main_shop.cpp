#include <QApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QInputDialog>
#include <QSettings>

#include "app/build/build_page.h"
#include "app/compare/compare_page.h"
#include "app/find/find_page.h"
#include "app/history/history_page.h"
#include "app/shop/backup_panel.h"
#include "app/shop/rescue_dialog.h"
#include "app/shop/shop_page.h"
#include "app/window/main_window.h"
#include "app/window/place_page.h"
#include "app/window/waiting_bar.h"
#include "app/window/who_box.h"
#include "app/words/backup_words.h"
#include "app/words/counted.h"
#include "app/words/error_text.h"
#include "app/work/backup_keeper.h"
#include "app/work/clock.h"
#include "db/restore.h"

// The window's part in what is done with the shop as a whole: who is working, what is found in it,
// backups put back, damaged files rescued.

namespace rodway {

void MainWindow::connect_shop_page() {
    connect(who_, &WhoBox::chosen, this, &MainWindow::set_who);
    connect(who_, &WhoBox::other_wanted, this, &MainWindow::ask_who);
    connect(who_, &WhoBox::people_wanted, this, [this] {
        go_to(shop_);
        shop_->go_to_panel(RecordKind::person);
    });
    connect(shop_, &ShopPage::back_up_wanted, this, [this] { backups_->look(true); });
    connect(shop_, &ShopPage::second_folder_wanted, this, &MainWindow::ask_second_backup_folder);
    connect(shop_, &ShopPage::rescue_wanted, this, &MainWindow::ask_rescue);
    // Behind the click, for the page lets go of what it is showing.
    connect(shop_, &ShopPage::restore_wanted, this, &MainWindow::restore_backup,
            Qt::QueuedConnection);
}

void MainWindow::go_to_history() {
    go_to(history_);
}

void MainWindow::go_to_compare() {
    go_to(compare_);
}

void MainWindow::go_to_find() {
    go_to(find_);
}

void MainWindow::go_to_record(const RecordRef& record, qint64 build_id) {
    if (!session_) {
        return;
    }
    if (build_id != 0 && build_id != build_id_) {
        take_build(build_id);
    }
    for (const Place& place : places_) {
        // The shop's own limits stand in the shop, a build's on its sheets.
        if (place.page->shows(record.kind) && (build_id == 0) == (place.shows == Shows::the_shop)) {
            go_to(place.page);
            place.page->go_to_record(record);
            return;
        }
    }
    if (build_id != 0) {
        go_to(build_);
    }
}

void MainWindow::go_to_shop() {
    go_to(shop_);
}

void MainWindow::set_who(const QString& who) {
    session_->set_who(who);
    QSettings().setValue("shop/who", who);
    refresh();
    say(tr("Working: %1. What is done from now on carries these initials.").arg(who));
}

void MainWindow::choose_who() {
    who_->setFocus(Qt::ShortcutFocusReason);
    who_->showPopup();
}

void MainWindow::ask_who() {
    bool good = false;
    const QString who = QInputDialog::getText(this, tr("Who is working"),
                                              tr("Initials that go with every tick and reading:"),
                                              QLineEdit::Normal, session_->who(), &good)
                            .simplified();
    if (good && !who.isEmpty()) {
        set_who(who);
    }
}

void MainWindow::let_go_of_shop() {
    for (const Place& place : places_) {
        place.page->take(nullptr, 0);
    }
    backups_->finish();
    waiting_->set_session(nullptr);
    build_id_ = 0;
    session_.reset();
}

bool MainWindow::restore_backup(const QString& backup) {
    if (!session_) {
        return false;
    }
    return restore_over(backup, QString::fromStdString(session_->shop().path()));
}

bool MainWindow::restore_over(const QString& backup, const QString& shop) {
    const QString open = session_ ? QString::fromStdString(session_->shop().path()) : QString();
    const bool is_open = !open.isEmpty() && QFileInfo(open) == QFileInfo(shop);
    if (is_open) {
        if (!waiting_->may_close()) {
            return false;
        }
        let_go_of_shop();
    }
    QApplication::setOverrideCursor(Qt::WaitCursor);
    const auto restored = restore(backup.toStdString(), shop.toStdString(), now_utc());
    QApplication::restoreOverrideCursor();
    // With or without another content, the shop is there again.
    const bool opened = restored || is_open ? open_shop(shop) : false;
    if (!session_) {
        go_to_first_page();
        refresh();
    }
    if (!restored) {
        complain(restored.error().code == ErrorCode::locked_file
                     ? words::shop_in_use(shop)
                     : words::error_text(restored.error()));
        return false;
    }
    if (opened) {
        QStringList lines{tr("The backup is in place: the shop ends with act %1 again.")
                              .arg(restored->history.act)};
        for (const std::string& kept : restored->kept) {
            lines << tr("What stood there is kept as %1").arg(QString::fromStdString(kept));
        }
        if (!restored->photos_missing.empty()) {
            lines << words::counted(static_cast<int>(restored->photos_missing.size()),
                                    tr("1 photo is in neither place."),
                                    tr("%1 photos are in neither place."));
        }
        complain(lines.join('\n'));
    }
    return opened;
}

void MainWindow::ask_restore() {
    const QString filter = tr("Shop files (*.rodway);;All files (*)");
    const QString last = QSettings().value("shop/last").toString();
    const QString backup = QFileDialog::getOpenFileName(
        this, tr("Backup to restore"),
        last.isEmpty() ? QString() : QString::fromStdString(backups_folder(last.toStdString())),
        filter);
    if (backup.isEmpty()) {
        return;
    }
    // Whatever stands there is copied first, so that the dialog need not ask about replacing it.
    const QString shop = QFileDialog::getSaveFileName(
        this, tr("Shop file in whose place it goes; what stands there is copied first"), last,
        filter, nullptr, QFileDialog::DontConfirmOverwrite);
    if (!shop.isEmpty()) {
        restore_over(backup, shop);
    }
}

void MainWindow::ask_rescue() {
    RescueDialog dialog(QSettings().value("shop/last").toString(), this);
    if (dialog.exec() == QDialog::Accepted && !dialog.to_open().isEmpty()) {
        open_shop(dialog.to_open());
    }
}

} // namespace rodway
