#include "app/window/main_window.h"

#include <QCloseEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QPushButton>
#include <QScrollBar>
#include <QSettings>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/account/account_page.h"
#include "app/bench/bench_page.h"
#include "app/build/build_page.h"
#include "app/build/new_build_dialog.h"
#include "app/build/plan_changes_dialog.h"
#include "app/build/stage_plan_dialog.h"
#include "app/compare/compare_page.h"
#include "app/describe/describe_page.h"
#include "app/find/find_page.h"
#include "app/first_run/demo_shop.h"
#include "app/first_run/first_page.h"
#include "app/first_run/new_build.h"
#include "app/handoff/book_page.h"
#include "app/history/history_page.h"
#include "app/known_engines/known_engines_page.h"
#include "app/parts/parts_page.h"
#include "app/sheets/own_sheet_dialog.h"
#include "app/sheets/sheets_page.h"
#include "app/shop/backup_panel.h"
#include "app/shop/shop_page.h"
#include "app/valvetrain/lift_table_dialog.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/widgets/choice_button.h"
#include "app/widgets/in_scroll_area.h"
#include "app/window/look.h"
#include "app/window/waiting_bar.h"
#include "app/window/who_box.h"
#include "app/words/backup_words.h"
#include "app/words/counted.h"
#include "app/words/error_text.h"
#include "app/words/look_only_words.h"
#include "app/work/backup_keeper.h"
#include "app/work/build_in_hand.h"
#include "app/work/clock.h"
#include "app/work/file_bytes.h"
#include "app/work/known_engines.h"
#include "app/work/output_file.h"
#include "app/work/stage_plans.h"
#include "core/files/set_up_file.h"

namespace rodway {
namespace {

constexpr int place_button_px = 44; ///< the least height of a place's button, for a thumb

} // namespace

MainWindow::MainWindow(Clock clock)
    : clock_(std::move(clock)),
      stack_(new QStackedWidget),
      bench_(new BenchPage(clock_)),
      build_(new BuildPage(clock_)),
      describe_(new DescribePage),
      valvetrain_(new ValvetrainPage),
      sheets_(new SheetsPage),
      parts_(new PartsPage),
      account_(new AccountPage),
      book_(new BookPage),
      shop_(new ShopPage),
      known_engines_(new KnownEnginesPage),
      find_(new FindPage),
      history_(new HistoryPage),
      compare_(new ComparePage),
      first_(new FirstPage),
      rail_(new QVBoxLayout),
      look_only_(new QLabel),
      notice_(new QWidget),
      notice_text_(new QLabel),
      waiting_(new WaitingBar),
      who_(new WhoBox),
      backup_age_(new QLabel),
      backups_(new BackupKeeper(this)) {
    setWindowTitle(tr("Rodway"));
    resize(1280, 800);
    setStyleSheet(look_sheet());

    notice_->setObjectName("notice");
    notice_text_->setWordWrap(true);
    notice_text_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* close = new QPushButton(tr("Close"));
    auto* notice_row = new QHBoxLayout(notice_);
    notice_row->addWidget(notice_text_, 1);
    notice_row->addWidget(close);
    notice_->hide();
    connect(close, &QPushButton::clicked, notice_, &QWidget::hide);

    look_only_->setObjectName("look_only");
    look_only_->setAccessibleName(tr("Only to look at"));
    look_only_->setWordWrap(true);
    look_only_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    look_only_->hide();

    auto* who = new QLabel(tr("Who works"));
    who->setBuddy(who_);
    rail_->addWidget(who);
    rail_->addWidget(who_);
    add_place(tr("Bench"), bench_, Shows::the_shop);
    add_place(tr("Build"), build_, Shows::a_build);
    add_place(tr("Engine"), describe_, Shows::a_build);
    add_place(tr("Valvetrain"), valvetrain_, Shows::a_build);
    add_place(tr("Sheets"), sheets_, Shows::a_build);
    add_place(tr("Parts"), parts_, Shows::a_build);
    add_place(tr("Account"), account_, Shows::a_build);
    add_place(tr("Book"), book_, Shows::a_build);
    add_place(tr("History"), history_, Shows::a_build);
    add_place(tr("Compare"), compare_, Shows::a_build);
    add_place(tr("Shop"), shop_, Shows::the_shop);
    add_place(tr("Known\nengines"), known_engines_, Shows::the_shop);
    add_place(tr("Find"), find_, Shows::the_shop);
    rail_->addStretch();
    stack_->addWidget(first_);
    auto* right = new QVBoxLayout;
    right->addWidget(look_only_);
    right->addWidget(waiting_);
    right->addWidget(notice_);
    right->addWidget(stack_, 1);
    auto* rail = new QWidget;
    rail->setLayout(rail_);
    rail_->setContentsMargins({});
    QScrollArea* rail_area = in_scroll_area(rail);
    rail_area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    rail_area->setSizeAdjustPolicy(QAbstractScrollArea::AdjustToContents);
    rail_area->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Preferred);
    // Where the places need more height than there is, they keep theirs, and the scroll bar doesn't
    // take their width. How large they are is known once they are dressed.
    QTimer::singleShot(0, rail_area, [this, rail, rail_area] {
        for (const Place& place : places_) {
            place.button->setMinimumHeight(
                std::max(place_button_px, place.button->sizeHint().height()));
        }
        rail_area->setMinimumWidth(rail->sizeHint().width() +
                                   rail_area->verticalScrollBar()->sizeHint().width());
    });
    auto* content = new QWidget;
    auto* columns = new QHBoxLayout(content);
    columns->setContentsMargins(6, 6, 0, 0); // places have their own
    columns->addWidget(rail_area);
    columns->addLayout(right, 1);
    setCentralWidget(content);
    backup_age_->setObjectName("backup_age");
    statusBar()->addPermanentWidget(backup_age_);
    connect(backups_, &BackupKeeper::told, this, &MainWindow::show_backups);

    make_menus();
    connect_shop_page();
    connect_describe_page();
    connect(find_, &FindPage::record_wanted, this, &MainWindow::go_to_record);
    connect(book_, &BookPage::place_wanted, this, &MainWindow::go_to_missing);
    connect(history_, &HistoryPage::record_wanted, this, &MainWindow::go_to_record);
    connect(bench_, &BenchPage::build_opened, this, &MainWindow::open_build);
    connect(bench_, &BenchPage::new_build_wanted, this, &MainWindow::new_build);
    connect(bench_, &BenchPage::place_wanted, this, &MainWindow::go_to_place);
    connect(bench_, &BenchPage::noted, this, &MainWindow::note);
    connect(build_, &BuildPage::valvetrain_wanted, this, [this] { go_to(valvetrain_); });
    connect(build_, &BuildPage::sheet_wanted, this, [this](const QString& kind) {
        go_to(sheets_);
        sheets_->open_kind(kind.toStdString());
    });
    connect(build_, &BuildPage::parts_wanted, this, [this] { go_to(parts_); });
    connect(build_, &BuildPage::account_wanted, this, [this] { go_to(account_); });
    connect(sheets_, &SheetsPage::print_wanted, this, &MainWindow::ask_sheet_file);
    connect(sheets_, &SheetsPage::own_sheet_wanted, this, &MainWindow::new_own_sheet);
    connect(parts_, &PartsPage::buy_list_wanted_on_paper, this, &MainWindow::ask_buy_list);
    connect(first_, &FirstPage::open_wanted, this, &MainWindow::ask_open_shop);
    connect(first_, &FirstPage::new_wanted, this, &MainWindow::ask_new_shop);
    go_to_first_page();
    refresh();
}

MainWindow::~MainWindow() {
    // Pages outlive the session: a box being typed in must not reach for it. What one still keeps
    // while it lets go must not make the others show it, some of which have let go already.
    if (session_) {
        session_->disconnect(this);
    }
    for (const Place& place : places_) {
        place.page->take(nullptr, 0);
    }
}

void MainWindow::add_place(const QString& name, PlacePage* page, Shows shows) {
    auto* button = new ChoiceButton(name);
    button->setObjectName("place");
    button->setMinimumHeight(place_button_px);
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    rail_->addWidget(button);
    QScrollArea* area = in_scroll_area(page);
    stack_->addWidget(area);
    places_.push_back({page, area, button, shows});
    connect(button, &QToolButton::clicked, this, [this, page] { go_to(page); });
    connect(page, &PlacePage::failed, this, &MainWindow::complain);
    connect(page, &PlacePage::said, this, &MainWindow::say);
}

void MainWindow::begin(const QString& shop) {
    const QString path = shop.isEmpty() ? QSettings().value("shop/last").toString() : shop;
    if (path.isEmpty() || (shop.isEmpty() && !QFileInfo::exists(path))) {
        go_to_first_page();
        return;
    }
    open_shop(path);
}

bool MainWindow::open_shop(const QString& path) {
    if (!waiting_->may_close()) {
        return false;
    }
    auto opened = ShopFile::open_to_look(path.toStdString());
    if (!opened) {
        complain(words::error_in_file(path, opened.error()));
        return false;
    }
    QSettings settings;
    const QString who =
        settings.value("shop/who", qEnvironmentVariable("USER", tr("shop"))).toString();
    auto session = std::make_unique<ShopSession>(std::move(opened).value(), who, clock_);
    session->keep_what_waits();
    build_id_ = 0;
    for (const Place& place : places_) {
        place.page->take(nullptr, 0);
    }
    session_ = std::move(session);
    settings.setValue("shop/last", QFileInfo(path).absoluteFilePath());
    connect(session_.get(), &ShopSession::changed, this, &MainWindow::refresh);
    waits_.clear();
    connect(session_.get(), &ShopSession::waiting_changed, this, &MainWindow::show_what_waits);
    waiting_->set_session(session_.get());
    for (const Place& place : places_) {
        place.page->take(session_.get(), 0);
    }
    const auto& look_only = session_->shop().look_only();
    const QString name = QFileInfo(path).completeBaseName();
    setWindowTitle(look_only ? tr("%1 (only to look at) – Rodway").arg(name)
                             : tr("%1 – Rodway").arg(name));
    look_only_->setText(look_only ? words::look_only(*look_only) : QString());
    look_only_->setVisible(look_only.has_value());
    notice_->hide();
    backup_age_->clear();
    // Without work there is nothing to back up.
    backups_->watch(look_only ? QString() : QFileInfo(path).absoluteFilePath());
    go_to(bench_);
    refresh();
    return true;
}

bool MainWindow::make_shop(const QString& path, bool demo) {
    if (demo) {
        if (const auto made = write_demo_shop(path); !made) {
            complain(words::error_in_file(path, made.error()));
            return false;
        }
    } else {
        const auto made = ShopFile::create(path.toStdString());
        if (!made) {
            complain(words::error_in_file(path, made.error()));
            return false;
        }
    }
    return open_shop(path);
}

void MainWindow::open_build(qint64 id) {
    take_build(id);
    go_to(build_);
}

void MainWindow::take_build(qint64 id) {
    build_id_ = id;
    for (const Place& place : places_) {
        place.page->take(session_.get(), id);
    }
    refresh();
}

void MainWindow::go_to_sheets() {
    go_to(sheets_);
}

void MainWindow::go_to_first_page() {
    stack_->setCurrentWidget(first_);
}

void MainWindow::go_to(PlacePage* page) {
    if (!session_) {
        go_to_first_page();
        return;
    }
    const auto place = std::find_if(places_.begin(), places_.end(),
                                    [page](const Place& p) { return p.page == page; });
    RODWAY_ASSERT(place != places_.end());
    if (place->shows == Shows::a_build && build_id_ == 0) {
        // Nothing is open yet: the row selected on the Bench is meant.
        take_build(bench_->selected_build());
    }
    stack_->setCurrentWidget(place->area);
    place->button->setChecked(true);
    if (page == bench_) {
        bench_->table()->setFocus();
    } else if (page == find_) {
        find_->begin();
    } else if (!place->button->hasFocus()) {
        // The keys go to where they were last in the place, if that is in sight of its top; whoever
        // walks the rail by keys stays.
        QWidget* last = page->focusWidget();
        const bool in_sight = last != nullptr &&
                              last->mapTo(page, last->rect().topLeft()).y() < place->area->height();
        (in_sight ? last : page)->setFocus();
    }
    // Focus that was handed on while the place was hidden may have scrolled it.
    place->area->verticalScrollBar()->setValue(0);
    place->area->horizontalScrollBar()->setValue(0);
}

PlacePage* MainWindow::place_in_front() const {
    const auto place = std::find_if(places_.begin(), places_.end(), [this](const Place& p) {
        return p.area == stack_->currentWidget();
    });
    return place == places_.end() ? nullptr : place->page;
}

void MainWindow::refresh() {
    for (const Place& place : places_) {
        place.page->refresh();
    }
    const auto undo = session_ ? session_->undo_text() : std::nullopt;
    const auto redo = session_ ? session_->redo_text() : std::nullopt;
    undo_->setEnabled(undo.has_value());
    undo_->setText(undo ? tr("Undo %1").arg(*undo) : tr("Undo"));
    redo_->setEnabled(redo.has_value());
    redo_->setText(redo ? tr("Redo %1").arg(*redo) : tr("Redo"));
    for (QAction* action : need_shop_) {
        action->setEnabled(session_ != nullptr);
    }
    for (QAction* action : need_build_) {
        action->setEnabled(build_id_ != 0);
    }
    if (session_ && session_->shop().look_only()) {
        for (QAction* action : need_writing_) {
            action->setEnabled(false);
        }
    }
    const bool any = session_ && bench_->selected_build() != 0;
    for (const Place& place : places_) {
        place.button->setEnabled(place.shows == Shows::the_shop || build_id_ != 0 || any);
    }
    who_->show_people(session_.get());
}

void MainWindow::show_what_waits() {
    // Not at every try: a box being typed in would be closed.
    std::vector<std::int64_t> keys;
    for (const WaitingAct& act : session_->waiting()) {
        keys.push_back(act.key);
    }
    if (keys != waits_) {
        waits_ = keys;
        refresh();
    }
}

void MainWindow::say(const QString& text) {
    notice_->hide();
    statusBar()->showMessage(text, 8000);
}

void MainWindow::complain(const QString& text) {
    notice_text_->setText(text);
    notice_->show();
}

void MainWindow::note(const QString& text) {
    notice_text_->setText(notice_->isHidden() ? text : notice_text_->text() + '\n' + text);
    notice_->show();
}

QString MainWindow::complaint() const {
    return notice_->isHidden() ? QString() : notice_text_->text();
}

void MainWindow::take_back(bool redo) {
    if (!session_ || !(redo ? session_->redo_text() : session_->undo_text())) {
        return;
    }
    const QString what = *(redo ? session_->redo_text() : session_->undo_text());
    const auto done = redo ? session_->redo() : session_->undo();
    if (!done) {
        complain(words::error_text(done.error()));
    } else {
        say(redo ? tr("Done again: %1").arg(what) : tr("Taken back: %1").arg(what));
    }
}

void MainWindow::ask_second_backup_folder() {
    const QString folder = QFileDialog::getExistingDirectory(
        this, tr("A folder on another disk, for backups with their photos"),
        BackupKeeper::second_place());
    if (!folder.isEmpty()) {
        BackupKeeper::set_second_place(folder);
        backups_->look();
    }
}

void MainWindow::show_backups(const BackupNews& news) {
    const auto now = backup_time_from(now_utc());
    RODWAY_ASSERT(now.has_value());
    std::optional<std::optional<BackupTime>> second;
    if (news.second) {
        second = news.second->newest;
    }
    backup_age_->setText(words::last_backup(news.own.newest, second, *now));
    bench_->show_backup(backup_age_->text());
    if (shop_->backups().isVisible()) {
        shop_->backups().refresh();
    }
    QStringList troubles;
    const auto add = [&](const BackupPlaceNews& place, bool second_place) {
        if (place.failure) {
            troubles << words::backup_failed(*place.failure, second_place);
        }
        if (place.overdue && place.newest) {
            troubles << words::backup_overdue(place.newest, second_place, *now);
        }
    };
    add(news.own, false);
    if (news.second) {
        add(*news.second, true);
    }
    if (!troubles.isEmpty()) {
        complain(troubles.join('\n'));
    }
}

bool MainWindow::event(QEvent* event) {
    const bool taken = QMainWindow::event(event);
    if (event->type() == QEvent::ApplicationPaletteChange) {
        setStyleSheet(look_sheet()); // under a style sheet, colours are worked out only once
    }
    return taken;
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (QWidget* typing = focusWidget()) {
        typing->clearFocus(); // a box being typed in keeps what it has
    }
    if (!waiting_->may_close()) {
        event->ignore();
        return;
    }
    backups_->finish();
    QMainWindow::closeEvent(event);
}

bool MainWindow::refuse_change() {
    const auto& look_only = session_->shop().look_only();
    if (look_only) {
        complain(words::look_only(*look_only));
    }
    return look_only.has_value();
}

void MainWindow::new_build() {
    new_build_from(0);
}

void MainWindow::new_build_from(qint64 known_engine_id) {
    // Before anything is typed.
    if (!session_ || refuse_change()) {
        return;
    }
    const auto plans = known_plans(session_->shop());
    if (!plans) {
        complain(words::error_text(plans.error()));
        return;
    }
    NewBuildDialog dialog(*plans, this);
    // The dialog keeps what was typed until it is in the file, or waits to be.
    while (dialog.exec() == QDialog::Accepted) {
        const auto fields =
            fields_to_begin_with(session_->shop(), dialog.fields(), known_engine_id);
        if (!fields) {
            complain(words::error_text(fields.error()));
            return;
        }
        const auto id = create_build(*session_, dialog.build(), *fields, dialog.plan());
        if (id) {
            open_build(*id);
            return;
        }
        complain(words::error_text(id.error()));
        if (is_waiting(id.error())) {
            return;
        }
    }
}

std::optional<Build> MainWindow::build_or_complain() {
    const auto build = load_build(session_->shop(), build_id_);
    if (!build) {
        complain(words::error_text(build.error()));
        return std::nullopt;
    }
    return *build;
}

void MainWindow::import_set_up(const QString& file) {
    const auto bytes = read_file(file);
    const auto fields = bytes ? read_set_up_file(*bytes) : Result<SetUpFields>(bytes.error());
    if (!fields) {
        complain(tr("%1\nNothing was taken in.").arg(words::error_in_file(file, fields.error())));
        return;
    }
    take_set_up(QFileInfo(file), *fields);
}

void MainWindow::take_set_up(const QFileInfo& file, const SetUpFields& fields) {
    const auto id = add_set_up(*session_, build_id_, file.completeBaseName(), fields);
    if (!id) {
        complain(words::error_text(id.error()));
        return;
    }
    say(tr("%1 is now the set-up in hand; the ones before are kept.").arg(file.fileName()));
}

void MainWindow::export_set_up(const QString& file) {
    const auto set_up = newest_set_up(session_->shop(), build_id_);
    if (!set_up) {
        complain(words::error_text(set_up.error()));
        return;
    }
    if (!*set_up) {
        complain(tr("This build has no set-up yet."));
        return;
    }
    const auto written = write_output(file, write_set_up_file((*set_up)->fields));
    if (!written) {
        complain(words::error_in_file(file, written.error()));
        return;
    }
    say(tr("Wrote %1.").arg(file));
}

void MainWindow::import_lift_table() {
    LiftTableDialog dialog(this);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    if (const auto error = dialog.put(*session_, build_id_)) {
        complain(words::error_text(*error));
        return;
    }
    say(tr("The lobes now follow %1.").arg(dialog.file_name()));
}

void MainWindow::new_own_sheet() {
    if (refuse_change()) {
        return;
    }
    OwnSheetDialog dialog(this);
    // The dialog keeps what was typed until it is in the file, or waits to be.
    while (dialog.exec() == QDialog::Accepted) {
        const auto id = keep_own_sheet(*session_, dialog.sheet());
        if (id || is_waiting(id.error())) {
            say(tr("The new sheet stands at the end of the list."));
            return;
        }
        dialog.refuse(words::error_text(id.error()));
    }
}

void MainWindow::edit_plans() {
    StagePlanDialog dialog(*session_, this);
    connect(&dialog, &StagePlanDialog::said, this, &MainWindow::say);
    dialog.exec();
}

void MainWindow::take_plan_changes() {
    const auto build = build_or_complain();
    if (!build) {
        return;
    }
    const auto changes = changes_of_plan(session_->shop(), *build);
    if (!changes) {
        complain(words::error_text(changes.error()));
        return;
    }
    PlanChangesDialog dialog(QString::fromStdString(build->name), *changes, this);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    const auto kept = take_over(*session_, *build, dialog.chosen());
    if (!kept) {
        complain(words::error_text(kept.error()));
        return;
    }
    say(kept->empty()
            ? tr("The changes are taken over; Undo takes them back.")
            : words::counted(static_cast<int>(kept->size()),
                             tr("Taken over, but for 1 item that other records refer to."),
                             tr("Taken over, but for %1 items that other records refer to.")));
}

} // namespace rodway
