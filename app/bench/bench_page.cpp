#include "app/bench/bench_page.h"

#include <QComboBox>
#include <QItemSelectionModel>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QScrollBar>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

#include "app/bench/today_panel.h"
#include "app/words/error_text.h"
#include "app/words/look_only_words.h"
#include "app/work/put_away.h"
#include "core/build/utc_time.h"

namespace rodway {
namespace {

/// Rows that only pass by while somebody scrolls aren't worked out.
constexpr int look_at_rows_ms = 60;
/// From the last letter typed until the rows follow.
constexpr int typed_ms = 150;
/// A computer that slept, or whose clock was set, is noticed after so long.
constexpr std::int64_t clock_seconds = 5;

/// In the order of the tabs.
constexpr std::array filters{BenchFilter::in_hand, BenchFilter::waits_for_part,
                             BenchFilter::waits_for_cure, BenchFilter::waits_for_customer,
                             BenchFilter::put_away};

} // namespace

BenchPage::BenchPage(Clock clock, QWidget* parent)
    : PlacePage(parent),
      clock_(std::move(clock)),
      standings_(reader_, clock_),
      model_(standings_),
      filter_(new QTabBar),
      text_(new QLineEdit),
      order_(new QComboBox),
      count_(new QLabel),
      stack_(new QStackedWidget),
      table_(new BenchTable),
      empty_(new QLabel),
      empty_action_(new QPushButton),
      open_(new QPushButton(tr("Open &it"))),
      held_(new QPushButton(tr("&Held up by…"))),
      put_away_(new QPushButton),
      today_(new TodayPanel(reader_, clock_)) {
    auto* title = new QLabel(tr("Bench"));
    title->setObjectName("title");
    auto* add = new QPushButton(tr("&New build…"));
    auto* top = new QHBoxLayout;
    top->addWidget(title);
    top->addStretch();
    top->addWidget(add);
    auto* sides = new QSplitter;
    sides->addWidget(make_rows());
    sides->addWidget(today_);
    sides->setStretchFactor(0, 4);
    sides->setStretchFactor(1, 1);
    sides->setChildrenCollapsible(false);
    sides->setSizes({920, 240});
    today_->setMinimumWidth(230);
    auto* layout = new QVBoxLayout(this);
    layout->addLayout(top);
    layout->addWidget(sides, 1);

    for (QTimer* timer : {&want_soon_, &typed_, &clock_timer_}) {
        timer->setSingleShot(true);
    }
    connect(add, &QPushButton::clicked, this, &BenchPage::new_build_wanted);
    connect(&want_soon_, &QTimer::timeout, this, &BenchPage::want_seen);
    connect(&typed_, &QTimer::timeout, this, [this] { show_rows(true); });
    connect(&clock_timer_, &QTimer::timeout, this, &BenchPage::look_at_clock);
    connect(today_, &TodayPanel::place_wanted, this, &BenchPage::place_wanted);
    connect(today_, &TodayPanel::cured, this, &BenchPage::noted);
    connect(today_, &TodayPanel::shown, this, [this](const std::string& until) {
        until_ = until;
        wait_for_clock();
    });
    connect_rows();
}

BenchPage::~BenchPage() {
    // The table outlives the model and the timers.
    table_->disconnect(this);
    table_->selectionModel()->disconnect(this);
}

QWidget* BenchPage::make_filters() {
    for (const QString& name : {tr("In hand"), tr("Wait for a part"), tr("Wait for a cure"),
                                tr("Wait for the customer"), tr("Put away")}) {
        filter_->addTab(name);
    }
    filter_->setObjectName("bench_filter");
    filter_->setAccessibleName(tr("Which builds are shown"));
    filter_->setExpanding(false);
    text_->setObjectName("bench_text");
    text_->setAccessibleName(tr("Only builds with these words"));
    text_->setPlaceholderText(tr("name, customer, engine, job number"));
    text_->setClearButtonEnabled(true);
    text_->installEventFilter(this);
    order_->setObjectName("bench_order");
    order_->setAccessibleName(tr("Order of the builds"));
    order_->addItems({tr("by promised day"), tr("newest change first")});
    count_->setObjectName("bench_count");
    auto* text_label = new QLabel(tr("On&ly with"));
    text_label->setBuddy(text_);
    auto* order_label = new QLabel(tr("O&rder"));
    order_label->setBuddy(order_);
    auto* row = new QHBoxLayout;
    row->addWidget(text_label);
    row->addWidget(text_, 1);
    row->addWidget(order_label);
    row->addWidget(order_);
    row->addWidget(count_);
    auto* filters_part = new QWidget;
    auto* layout = new QVBoxLayout(filters_part);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(filter_);
    layout->addLayout(row);
    return filters_part;
}

QWidget* BenchPage::make_rows() {
    table_->setObjectName("bench");
    table_->setAccessibleName(tr("Builds"));
    table_->setModel(&model_);
    empty_->setAlignment(Qt::AlignCenter);
    empty_->setWordWrap(true);
    empty_->setTextFormat(Qt::PlainText);
    empty_action_->setObjectName("bench_empty_action");
    auto* nothing = new QWidget;
    auto* nothing_layout = new QVBoxLayout(nothing);
    nothing_layout->addStretch();
    nothing_layout->addWidget(empty_);
    nothing_layout->addWidget(empty_action_, 0, Qt::AlignCenter);
    nothing_layout->addStretch();
    stack_->addWidget(table_);
    stack_->addWidget(nothing);
    auto* rows = new QWidget;
    auto* layout = new QVBoxLayout(rows);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(make_filters());
    layout->addWidget(stack_, 1);
    layout->addWidget(make_buttons());
    return rows;
}

QWidget* BenchPage::make_buttons() {
    open_->setObjectName("bench_open");
    held_->setObjectName("bench_held");
    held_->setAccessibleDescription(tr("Goes to the place of what holds the selected build up"));
    put_away_->setObjectName("bench_put_away");
    auto* buttons = new QWidget;
    auto* layout = new QHBoxLayout(buttons);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(open_);
    layout->addWidget(held_);
    layout->addStretch();
    layout->addWidget(put_away_);
    return buttons;
}

void BenchPage::connect_rows() {
    connect(filter_, &QTabBar::currentChanged, this, [this] { show_rows(true); });
    connect(order_, &QComboBox::currentIndexChanged, this, [this] { show_rows(true); });
    connect(text_, &QLineEdit::textChanged, this, [this] { typed_.start(typed_ms); });
    connect(table_, &BenchTable::typed, this, [this](const QString& text) {
        text_->setFocus();
        text_->insert(text);
    });
    connect(table_, &BenchTable::looked_elsewhere, this,
            [this] { want_soon_.start(look_at_rows_ms); });
    connect(table_, &BenchTable::held_clicked, this, &BenchPage::open_held);
    connect(table_, &QAbstractItemView::activated, this, [this](const QModelIndex& index) {
        if (const BenchRow* row = model_.row(index.row())) {
            emit build_opened(row->build.id);
        }
    });
    connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this,
            &BenchPage::show_buttons);
    // Not while the table is being painted.
    connect(&model_, &BenchModel::failed, this, &BenchPage::failed, Qt::QueuedConnection);
    connect(&standings_, &BenchStandings::found, this, [this](qint64 build_id) {
        if (build_id == selected_build()) {
            show_buttons();
        }
    });
    connect(open_, &QPushButton::clicked, this, [this] {
        if (const qint64 id = selected_build(); id != 0) {
            emit build_opened(id);
        }
    });
    connect(held_, &QPushButton::clicked, this, &BenchPage::show_held_menu);
    connect(put_away_, &QPushButton::clicked, this, &BenchPage::put_away_selected);
    connect(empty_action_, &QPushButton::clicked, this, [this] {
        if (!text_->text().isEmpty()) {
            text_->clear();
        } else if (filter_->currentIndex() != 0) {
            filter_->setCurrentIndex(0);
        } else {
            emit new_build_wanted();
        }
    });
}

void BenchPage::take(ShopSession* session, std::int64_t) {
    if (session == session_) {
        return; // the Bench is the shop's: another build in hand is nothing to it
    }
    session_ = session;
    reader_.read_from(session != nullptr ? session->shop().path() : std::string());
    standings_.forget();
    today_->begin();
    clock_timer_.stop();
    stale_ = false;
    text_->clear();
    typed_.stop();
    filter_->setCurrentIndex(0);
    show_rows(true);
    if (session_ != nullptr) {
        today_->refresh();
    }
}

void BenchPage::refresh() {
    if (session_ == nullptr) {
        return;
    }
    today_->refresh();
    // What nobody sees is read when somebody does.
    stale_ = !isVisible();
    if (!stale_) {
        show_rows(false);
    }
}

void BenchPage::showEvent(QShowEvent* event) {
    PlacePage::showEvent(event);
    if (stale_ && session_ != nullptr) {
        stale_ = false;
        show_rows(false);
    }
    want_soon_.start(look_at_rows_ms);
    // Overnight no timer may have run.
    if (session_ != nullptr && !until_.empty() && clock_() >= until_) {
        look_at_clock();
    }
}

void BenchPage::hideEvent(QHideEvent* event) {
    PlacePage::hideEvent(event);
    standings_.want({});
}

bool BenchPage::eventFilter(QObject* watched, QEvent* event) {
    if (watched == text_ && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Down || key == Qt::Key_Return || key == Qt::Key_Enter) {
            if (typed_.isActive()) {
                typed_.stop();
                show_rows(true);
            }
            table_->setFocus();
            return true;
        }
        if (key == Qt::Key_Escape) {
            text_->clear();
            return true;
        }
    }
    return PlacePage::eventFilter(watched, event);
}

BenchRequest BenchPage::request() const {
    const Moment moment = Moment::at(clock_());
    BenchRequest request;
    request.filter = filters[static_cast<std::size_t>(filter_->currentIndex())];
    request.text = text_->text().toStdString();
    request.order = order_->currentIndex() == 0 ? BenchOrder::promised : BenchOrder::newest_change;
    request.now_utc = moment.now_utc;
    request.today = moment.today;
    return request;
}

void BenchPage::show_rows(bool from_top) {
    const qint64 id = selected_build();
    const int row = table_->currentIndex().row();
    const int height = table_->verticalScrollBar()->value();
    model_.show(session_ != nullptr ? &session_->shop() : nullptr, request(),
                from_top ? 0 : std::max(table_->rowAt(0), 0));
    const int there = from_top ? -1 : model_.row_of(id);
    select(from_top ? 0 : there >= 0 ? there : row);
    table_->verticalScrollBar()->setValue(from_top ? 0 : height);
    count_->setText(model_.total() == 1 ? tr("1 build") : tr("%1 builds").arg(model_.total()));
    stack_->setCurrentIndex(model_.total() > 0 ? 0 : 1);
    if (model_.total() == 0) {
        show_empty();
    }
    show_buttons();
    want_soon_.start(look_at_rows_ms);
}

/// Without scrolling to it: somebody may look elsewhere.
void BenchPage::select(int row) {
    if (model_.total() == 0) {
        return;
    }
    table_->setAutoScroll(false);
    table_->selectionModel()->setCurrentIndex(
        model_.index(std::clamp(row, 0, model_.total() - 1), BenchModel::build_column),
        QItemSelectionModel::ClearAndSelect | QItemSelectionModel::Rows);
    table_->setAutoScroll(true);
}

void BenchPage::show_empty() {
    if (!text_->text().isEmpty()) {
        empty_->setText(tr("No build here has “%1” in its name, customer, engine or job number.")
                            .arg(text_->text()));
        empty_action_->setText(tr("Show &all of them"));
        return;
    }
    switch (request().filter) {
        case BenchFilter::in_hand:
            empty_->setText(
                tr("No builds in hand.\nA build is one customer's engine: its stages, readings and "
                   "parts. Begin with “New build…”, from a set-up file or without one."));
            break;
        case BenchFilter::waits_for_part:
            empty_->setText(
                tr("No build waits for a part.\nBuilds stand here while a part on "
                   "their list is still to come."));
            break;
        case BenchFilter::waits_for_cure:
            empty_->setText(
                tr("No build waits for a cure.\nBuilds stand here while a sealant, an "
                   "adhesive or a paint on them dries."));
            break;
        case BenchFilter::waits_for_customer:
            empty_->setText(
                tr("No build waits for its customer.\nBuilds stand here while an extra "
                   "in their account waits for an answer."));
            break;
        case BenchFilter::put_away:
            empty_->setText(
                tr("Nothing is put away.\nA build that is done is put away from the "
                   "ones in hand; it stays in the shop file and can be taken back."));
            break;
    }
    empty_action_->setText(filter_->currentIndex() == 0 ? tr("New build…")
                                                        : tr("Show those in h&and"));
}

const BenchRow* BenchPage::selected() const {
    return model_.row(table_->currentIndex().row());
}

qint64 BenchPage::selected_build() const {
    const BenchRow* row = selected();
    return row != nullptr ? row->build.id : 0;
}

void BenchPage::show_buttons() {
    const BenchRow* row = selected();
    const BenchStanding* standing = model_.standing(table_->currentIndex().row());
    const bool away = row != nullptr && row->build.archived;
    open_->setEnabled(row != nullptr);
    held_->setEnabled(standing != nullptr && !standing->held_by.empty());
    put_away_->setText(away ? tr("&Take it back in hand") : tr("Put it a&way"));
    const auto look_only = session_ != nullptr ? session_->shop().look_only() : std::nullopt;
    put_away_->setEnabled(row != nullptr && !look_only);
    put_away_->setToolTip(look_only ? words::look_only(*look_only) : QString());
}

void BenchPage::want_seen() {
    if (!isVisible() || session_ == nullptr) {
        return;
    }
    const auto [first, last] = table_->rows_seen();
    std::vector<BuildVersion> seen;
    for (int row = std::max(first, 0); row <= last; ++row) {
        const BenchRow* shown = model_.row(row);
        if (shown != nullptr && !shown->build.archived) {
            seen.push_back(model_.version(row));
        }
    }
    standings_.want(std::move(seen));
}

void BenchPage::open_held(int row, int line) {
    const BenchStanding* standing = model_.standing(row);
    if (standing == nullptr || standing->held_by.empty()) {
        return;
    }
    if (line > 0 && standing->held_by.size() > 2) {
        select(row);
        show_held_menu(); // "and 3 more"
        return;
    }
    const auto which = std::min(static_cast<std::size_t>(line), standing->held_by.size() - 1);
    emit place_wanted(model_.row(row)->build.id, standing->held_by[which].place);
}

void BenchPage::show_held_menu() {
    const BenchStanding* standing = model_.standing(table_->currentIndex().row());
    const qint64 id = selected_build();
    if (standing == nullptr) {
        return;
    }
    auto* menu = new QMenu(this);
    menu->setObjectName("bench_held_menu");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    for (const HeldBy& held : standing->held_by) {
        // An ampersand in a name is no key.
        QString words = fontMetrics().elidedText(held.words, Qt::ElideRight, width() / 2);
        words.replace(QLatin1Char('&'), QStringLiteral("&&"));
        menu->addAction(words, this,
                        [this, id, place = held.place] { emit place_wanted(id, place); });
    }
    menu->popup(held_->mapToGlobal(QPoint(0, 0)));
}

void BenchPage::put_away_selected() {
    const BenchRow* row = selected();
    if (row == nullptr || session_ == nullptr) {
        return;
    }
    const Build build = row->build;
    const bool away = !build.archived;
    const auto done =
        put_away(*session_, build, away ? std::optional(session_->now()) : std::nullopt);
    if (!done) {
        emit failed(words::error_text(done.error()));
        return;
    }
    const QString name = QString::fromStdString(build.name);
    emit said(away ? tr("%1 is put away; Undo takes it back.").arg(name)
                   : tr("%1 is in hand again.").arg(name));
}

void BenchPage::show_backup(const QString& words) {
    today_->show_backup(words);
}

void BenchPage::wait_for_clock() {
    const auto left = seconds_between(clock_(), until_);
    clock_timer_.start(std::chrono::seconds(
        std::clamp(left.value_or(clock_seconds), std::int64_t{0}, clock_seconds)));
}

void BenchPage::look_at_clock() {
    // UTC texts stand in the order of time.
    if (clock_() < until_) {
        wait_for_clock();
    } else if (until_.empty()) {
        today_->refresh(); // it couldn't be read
    } else {
        refresh();
    }
}

} // namespace rodway
