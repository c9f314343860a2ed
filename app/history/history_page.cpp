#include "app/history/history_page.h"

#include <QComboBox>
#include <QDateTime>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSplitter>
#include <QTabWidget>
#include <QTableWidget>
#include <QTreeWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/history/undo_panel.h"
#include "app/widgets/plain_tip.h"
#include "app/words/act_words.h"
#include "app/words/counted.h"
#include "app/words/error_text.h"
#include "app/words/history_words.h"
#include "app/words/record_words.h"
#include "core/sheets/day.h"
#include "db/history.h"

namespace rodway {
namespace {

enum Column { when_column, who_column, what_column, state_column, column_count };
enum Tab { act_tab, record_tab, undo_tab };

QString local_time(const std::string& when_utc) {
    const QDateTime time =
        QDateTime::fromString(QString::fromStdString(when_utc), Qt::ISODate).toLocalTime();
    return time.isValid() ? time.toString("yyyy-MM-dd HH:mm") : QString::fromStdString(when_utc);
}

/// The last second of a day by this computer's calendar.
std::string end_of_day(const std::string& day) {
    const QDate date = QDate::fromString(QString::fromStdString(day), Qt::ISODate);
    return QDateTime(date, QTime(23, 59, 59)).toUTC().toString(Qt::ISODate).toStdString();
}

} // namespace

std::map<std::int64_t, std::int64_t> taken_back_by(const std::vector<Act>& acts) {
    std::map<std::int64_t, std::int64_t> undoes;
    for (const Act& act : acts) {
        if (act.undoes) undoes[act.number] = *act.undoes;
    }
    std::map<std::int64_t, std::int64_t> by;
    // Newest first: whether an undo is in force is known before what it undoes is looked at.
    for (auto undo = undoes.rbegin(); undo != undoes.rend(); ++undo) {
        if (by.count(undo->first) == 0) by.emplace(undo->second, undo->first);
    }
    return by;
}

HistoryPage::HistoryPage(QWidget* parent)
    : PlacePage(parent), tabs_(new QTabWidget), undo_(new UndoPanel) {
    auto* title = new QLabel(tr("History"));
    title->setObjectName("title");
    auto* split = new QSplitter;
    split->setChildrenCollapsible(false);
    split->addWidget(make_acts());
    tabs_->addTab(make_details(), tr("This act"));
    tabs_->addTab(make_record(), tr("As it stood"));
    tabs_->addTab(undo_, tr("Undo and redo"));
    split->addWidget(tabs_);
    split->setStretchFactor(0, 1);
    split->setSizes({700, 400});
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title);
    layout->addWidget(split, 1);
    connect(undo_, &UndoPanel::failed, this, &HistoryPage::failed);
    connect(undo_, &UndoPanel::said, this, &HistoryPage::said);
}

QWidget* HistoryPage::make_acts() {
    scope_ = new QComboBox;
    scope_->setObjectName("history_scope");
    scope_->setAccessibleName(tr("Whose history"));
    scope_->addItems({tr("This build"), tr("The shop's own records")});
    filter_ = new QLineEdit;
    filter_->setObjectName("history_filter");
    filter_->setAccessibleName(tr("Filter"));
    filter_->setPlaceholderText(tr("only acts with these words: a name, a step, initials, a date"));
    filter_->setClearButtonEnabled(true);
    state_ = new QLabel;
    state_->setObjectName("history_state");
    state_->setWordWrap(true);
    table_ = new QTableWidget(0, column_count);
    table_->setObjectName("acts");
    table_->setAccessibleName(tr("What was done"));
    table_->setHorizontalHeaderLabels({tr("When"), tr("Who"), tr("What"), tr("State")});
    table_->verticalHeader()->hide();
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setAlternatingRowColors(true);
    table_->setShowGrid(false);
    table_->setWordWrap(false);
    auto* header = table_->horizontalHeader();
    header->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    header->setSectionResizeMode(what_column, QHeaderView::Stretch);
    header->resizeSection(when_column, 130);
    header->resizeSection(who_column, 60);
    header->setSectionResizeMode(state_column, QHeaderView::ResizeToContents);
    auto* top = new QHBoxLayout;
    top->addWidget(scope_);
    top->addWidget(filter_, 1);
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addLayout(top);
    layout->addWidget(state_);
    layout->addWidget(table_, 1);
    connect(scope_, &QComboBox::currentIndexChanged, this, &HistoryPage::load);
    connect(filter_, &QLineEdit::textChanged, this, &HistoryPage::fill_acts);
    connect(table_, &QTableWidget::currentCellChanged, this, &HistoryPage::show_act);
    connect(table_, &QTableWidget::itemActivated, this, &HistoryPage::go_there);
    return side;
}

QWidget* HistoryPage::make_details() {
    details_ = new QListWidget;
    details_->setObjectName("act_details");
    details_->setAccessibleName(tr("What the act did, field by field"));
    details_->setWordWrap(true);
    details_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    go_ = new QPushButton(tr("Go there"));
    then_button_ = new QPushButton(tr("The record as it stood then"));
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(go_);
    buttons->addWidget(then_button_);
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->addWidget(details_, 1);
    layout->addLayout(buttons);
    connect(go_, &QPushButton::clicked, this, &HistoryPage::go_there);
    connect(then_button_, &QPushButton::clicked, this, &HistoryPage::show_then);
    return side;
}

QWidget* HistoryPage::make_record() {
    day_ = new QLineEdit;
    day_->setObjectName("as_of_day");
    day_->setAccessibleName(tr("As it stood at the end of this day"));
    day_->setPlaceholderText(tr("2026-03-01"));
    auto* show = new QPushButton(tr("Show"));
    record_state_ = new QLabel(tr("Type a day: all that was recorded by its end stands here."));
    record_state_->setObjectName("record_state");
    record_state_->setWordWrap(true);
    record_ = new QTreeWidget;
    record_->setObjectName("record_then");
    record_->setAccessibleName(tr("The record as it stood"));
    record_->setHeaderLabels({tr("What"), tr("Said")});
    record_->header()->setSectionResizeMode(0, QHeaderView::ResizeToContents);
    auto* top = new QHBoxLayout;
    auto* label = new QLabel(tr("As it stood on"));
    label->setBuddy(day_);
    top->addWidget(label);
    top->addWidget(day_, 1);
    top->addWidget(show);
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->addLayout(top);
    layout->addWidget(record_state_);
    layout->addWidget(record_, 1);
    const auto ask = [this] { show_as_of(day_->text().trimmed()); };
    connect(show, &QPushButton::clicked, this, ask);
    connect(day_, &QLineEdit::returnPressed, this, ask);
    // A record's fields come when it is opened: a build has tens of thousands.
    connect(record_, &QTreeWidget::itemExpanded, this, [this](QTreeWidgetItem* item) {
        const QVariant kind = item->data(0, Qt::UserRole);
        if (!kind.isValid() || item->childCount() != 1 || !item->child(0)->text(0).isEmpty()) {
            return;
        }
        delete item->takeChild(0);
        const auto found = then_.find(
            {static_cast<RecordKind>(kind.toInt()), item->data(0, Qt::UserRole + 1).toLongLong()});
        if (found == then_.end()) return;
        for (const auto& [field, text] : found->second) {
            if (field == "exists") continue;
            new QTreeWidgetItem(item, {words::field_name(field), QString::fromStdString(text)});
        }
    });
    return side;
}

void HistoryPage::take(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    loaded_.reset();
    then_.clear();
    record_->clear();
    record_state_->setText(tr("Type a day: all that was recorded by its end stands here."));
    refresh();
}

void HistoryPage::showEvent(QShowEvent* event) {
    PlacePage::showEvent(event);
    refresh();
}

void HistoryPage::refresh() {
    if (session_ == nullptr) {
        acts_.clear();
        summaries_.clear();
        fill_acts();
        undo_->show_session(nullptr);
        return;
    }
    if (!isVisible()) return;
    undo_->show_session(session_);
    load();
}

std::int64_t HistoryPage::owner() const {
    return scope_->currentIndex() == 0 ? build_id_ : shop_wide;
}

void HistoryPage::load() {
    if (session_ == nullptr) return;
    const auto last = last_act(session_->shop());
    if (last && loaded_ == std::pair(owner(), *last) && !acts_.empty()) return;
    acts_.clear();
    summaries_.clear();
    const bool nothing = scope_->currentIndex() == 0 && build_id_ == 0;
    auto acts = nothing ? Result<std::vector<Act>>(std::vector<Act>())
                        : history_of_build(session_->shop(), owner());
    const auto now =
        nothing ? Result<RecordTexts>(RecordTexts()) : records_of_build(session_->shop(), owner());
    if (!acts || !now) {
        emit failed(words::error_text(!acts ? acts.error() : now.error()));
    } else {
        acts_ = std::move(acts).value();
        std::reverse(acts_.begin(), acts_.end());
        now_ = *now;
        taken_back_by_ = taken_back_by(acts_);
        for (const Act& act : acts_) summaries_.push_back(words::act_summary(act, now_));
        if (last) loaded_ = {owner(), *last};
    }
    fill_acts();
}

void HistoryPage::fill_acts() {
    const Act* before = act_in_hand();
    const std::int64_t in_hand = before == nullptr ? 0 : before->number;
    const QStringList words = filter_->text().simplified().split(' ', Qt::SkipEmptyParts);
    shown_.clear();
    for (std::size_t which = 0; which < acts_.size(); ++which) {
        const Act& act = acts_[which];
        const auto said = [&] {
            QString text = local_time(act.when_utc) + ' ' + QString::fromStdString(act.who) + ' ' +
                           summaries_[which];
            for (const Edit& edit : act.edits) {
                text += ' ' + QString::fromStdString(edit.after.value_or("")) + ' ' +
                        QString::fromStdString(edit.before.value_or("")) + ' ' +
                        words::field_name(edit.field);
            }
            return text;
        };
        const QString text = words.isEmpty() ? QString() : said();
        if (std::all_of(words.begin(), words.end(), [&](const QString& word) {
                return text.contains(word, Qt::CaseInsensitive);
            })) {
            shown_.push_back(which);
        }
    }
    const QSignalBlocker quiet(table_);
    table_->setRowCount(static_cast<int>(shown_.size()));
    int current = shown_.empty() ? -1 : 0;
    for (std::size_t row = 0; row < shown_.size(); ++row) {
        const Act& act = acts_[shown_[row]];
        const auto back = taken_back_by_.find(act.number);
        const QStringList texts{
            local_time(act.when_utc), QString::fromStdString(act.who), summaries_[shown_[row]],
            back == taken_back_by_.end() ? QString()
                                         : tr("\u21b6 taken back by %1").arg(back->second)};
        QFont font = table_->font();
        font.setStrikeOut(back != taken_back_by_.end());
        for (int column = 0; column < column_count; ++column) {
            auto* item = new QTableWidgetItem(texts[column]);
            if (column == what_column) item->setFont(font);
            item->setToolTip(plain_tip(
                tr("Act %1: %2").arg(QString::number(act.number), summaries_[shown_[row]])));
            table_->setItem(static_cast<int>(row), column, item);
        }
        if (act.number == in_hand) current = static_cast<int>(row);
    }
    table_->setCurrentCell(current, what_column);
    if (acts_.empty()) {
        state_->setText(scope_->currentIndex() == 0 && build_id_ == 0
                            ? tr("Open a build on the Bench: what was done to it stands here.")
                            : tr("Nothing was done yet. The first tick, reading or part stands "
                                 "here, with who did it and when."));
    } else {
        state_->setText(
            shown_.size() == acts_.size()
                ? words::counted(static_cast<int>(acts_.size()), tr("1 act."),
                                 tr("%1 acts, newest first."))
                : tr("%1 of %2 acts have these words.").arg(shown_.size()).arg(acts_.size()));
    }
    show_act();
}

const Act* HistoryPage::act_in_hand() const {
    const int row = table_->currentRow();
    if (row < 0 || row >= static_cast<int>(shown_.size())) return nullptr;
    const std::size_t which = shown_[static_cast<std::size_t>(row)];
    return which < acts_.size() ? &acts_[which] : nullptr;
}

void HistoryPage::show_act() {
    details_->clear();
    const Act* act = act_in_hand();
    go_->setEnabled(act != nullptr);
    then_button_->setEnabled(act != nullptr);
    if (act != nullptr) details_->addItems(words::act_lines(*act, now_));
}

void HistoryPage::go_there() {
    const Act* act = act_in_hand();
    if (act == nullptr || act->edits.empty()) return;
    const RecordRef record = act->edits.front().record;
    emit record_wanted(record, owner());
}

void HistoryPage::show_then() {
    const Act* act = act_in_hand();
    if (act == nullptr) return;
    show_records(act->number, tr("As it stood after act %1, %2.")
                                  .arg(QString::number(act->number), local_time(act->when_utc)));
    tabs_->setCurrentIndex(record_tab);
}

void HistoryPage::show_as_of(const QString& day) {
    tabs_->setCurrentIndex(record_tab);
    day_->setText(day);
    const auto read = parse_day(day.toStdString());
    if (!read) {
        record_state_->setText(
            words::error_text(Error{ErrorCode::not_a_date, {}, day.toStdString(), {}, {}, {}}));
        return;
    }
    if (session_ == nullptr || (scope_->currentIndex() == 0 && build_id_ == 0)) return;
    const auto act = act_as_of(session_->shop(), owner(), end_of_day(*read));
    if (!act) {
        record_state_->setText(words::error_text(act.error()));
        return;
    }
    show_records(*act, tr("As it stood at the end of %1.").arg(QString::fromStdString(*read)));
}

void HistoryPage::show_records(std::int64_t act, const QString& heading) {
    record_->clear();
    then_.clear();
    const auto records = records_as_of_act(session_->shop(), owner(), act);
    if (!records) {
        record_state_->setText(words::error_text(records.error()));
        return;
    }
    then_ = *records;
    record_state_->setText(then_.empty() ? tr("%1 There was nothing of it yet.").arg(heading)
                                         : heading);
    std::map<RecordKind, QTreeWidgetItem*> kinds;
    for (const auto& [record, fields] : then_) {
        QTreeWidgetItem*& kind = kinds[record.kind];
        if (kind == nullptr) {
            kind = new QTreeWidgetItem(record_, {words::record_kind(record.kind)});
        }
        const QString title = words::record_title(record.kind, fields);
        const auto said = fields.find("text");
        auto* item = new QTreeWidgetItem(
            kind, {title.isEmpty() ? QString::number(record.id) : title,
                   said == fields.end() ? QString() : QString::fromStdString(said->second)});
        item->setData(0, Qt::UserRole, static_cast<int>(record.kind));
        item->setData(0, Qt::UserRole + 1, static_cast<qlonglong>(record.id));
        new QTreeWidgetItem(item); // so that it can be opened
    }
    for (auto& [kind, item] : kinds) {
        item->setText(1, words::counted(item->childCount(), tr("1 record"), tr("%1 records")));
    }
}

} // namespace rodway
