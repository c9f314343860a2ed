#include "app/find/find_page.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/find/passage_delegate.h"
#include "app/widgets/keep_room.h"
#include "app/widgets/plain_tip.h"
#include "app/words/error_text.h"

namespace rodway {
namespace {

enum Column { kind_column, called_column, passage_column, build_column, column_count };
/// Between two keys of somebody who types on.
constexpr int pause_ms = 90;

} // namespace

FindPage::FindPage(QWidget* parent)
    : PlacePage(parent),
      finding_(std::make_unique<NewestRequest>()),
      box_(new QLineEdit),
      state_(new QLabel),
      table_(new QTableWidget(0, column_count)) {
    auto* title = new QLabel(tr("Find"));
    title->setObjectName("title");
    box_->setObjectName("find_box");
    box_->setAccessibleName(tr("Find"));
    box_->setClearButtonEnabled(true);
    box_->setPlaceholderText(
        tr("a name, a part, a number, words of a note: their beginnings are enough"));
    box_->setMaxLength(500);
    state_->setObjectName("find_state");
    state_->setTextFormat(Qt::PlainText);
    state_->setWordWrap(true);
    table_->setObjectName("found");
    table_->setAccessibleName(tr("What was found"));
    table_->setHorizontalHeaderLabels(
        {tr("What it is"), tr("Called"), tr("Where the words stand"), tr("Build")});
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setDefaultSectionSize(30);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setShowGrid(false);
    table_->setAlternatingRowColors(true);
    table_->setWordWrap(false);
    keep_room(*table_);
    table_->setItemDelegateForColumn(passage_column, new PassageDelegate(table_));
    auto* header = table_->horizontalHeader();
    header->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    header->setSectionResizeMode(QHeaderView::Stretch);
    header->setSectionResizeMode(kind_column, QHeaderView::Interactive);
    header->resizeSection(kind_column, 120);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title);
    layout->addWidget(box_);
    layout->addWidget(state_);
    layout->addWidget(table_, 1);
    layout->addStretch(); // what is said stands at the top while there is no table
    wait_.setSingleShot(true);
    wait_.setInterval(pause_ms);
    connect(&wait_, &QTimer::timeout, this, &FindPage::ask);
    connect(box_, &QLineEdit::textChanged, this, [this] {
        open_first_ = false;
        wait_.start();
    });
    connect(box_, &QLineEdit::returnPressed, this, [this] {
        if (busy()) {
            open_first_ = true;
        } else {
            open_row(table_->currentRow());
        }
    });
    connect(table_, &QTableWidget::itemActivated, this,
            [this](const QTableWidgetItem* item) { open_row(item->row()); });
    box_->installEventFilter(this);
    show_answer({});
}

void FindPage::take(ShopSession* session, std::int64_t) {
    if (session == session_) return;
    session_ = session;
    wait_.stop();
    open_first_ = false;
    // Whoever reads the file that goes is waited for.
    finding_ = std::make_unique<NewestRequest>();
    show_answer({});
    refresh();
}

void FindPage::refresh() {
    if (session_ != nullptr && isVisible() && !box_->text().trimmed().isEmpty()) wait_.start();
}

void FindPage::begin() {
    box_->setFocus(Qt::ShortcutFocusReason);
    box_->selectAll();
    refresh();
}

void FindPage::ask() {
    if (session_ == nullptr) return;
    const std::string typed = box_->text().toStdString();
    if (box_->text().trimmed().isEmpty()) {
        finding_ = std::make_unique<NewestRequest>();
        show_answer({});
        return;
    }
    finding_->ask<FindAnswer>([path = session_->shop().path(),
                               typed](const std::stop_token&) { return find_in_shop(path, typed); },
                              [this](const FindAnswer& answer) { show_answer(answer); });
}

void FindPage::show_answer(const FindAnswer& answer) {
    const int before = table_->currentRow();
    RecordRef selected{RecordKind::build, 0}; // no record has this number
    if (before >= 0 && before < static_cast<int>(lines_.size())) {
        selected = lines_[static_cast<std::size_t>(before)].record;
    }
    lines_ = answer.lines;
    table_->setRowCount(static_cast<int>(lines_.size()));
    int row_in_hand = 0;
    for (std::size_t which = 0; which < lines_.size(); ++which) {
        const FoundLine& line = lines_[which];
        const int row = static_cast<int>(which);
        const PassageLine passage = passage_line(line.passage);
        auto* words = new QTableWidgetItem(passage.text);
        words->setData(PassageDelegate::marks_role, passage.marks);
        words->setToolTip(plain_tip(tr("%1: %2").arg(line.field, passage.text)));
        table_->setItem(row, kind_column, new QTableWidgetItem(line.kind));
        table_->setItem(row, called_column, new QTableWidgetItem(line.called));
        table_->setItem(row, passage_column, words);
        table_->setItem(row, build_column, new QTableWidgetItem(line.build));
        if (line.record == selected) row_in_hand = row;
    }
    if (!lines_.empty()) table_->setCurrentCell(row_in_hand, called_column);
    table_->setVisible(!lines_.empty());
    if (answer.failure) {
        state_->setText(words::error_text(*answer.failure));
    } else if (!lines_.empty()) {
        QString says = tr("%n found. Up and Down choose, Enter opens it at its place.", "",
                          static_cast<int>(lines_.size()));
        if (answer.newest_only) {
            says +=
                tr(" So many have these words that only the newest were ranked: one word more "
                   "finds older ones.");
        }
        state_->setText(says);
    } else if (box_->text().trimmed().isEmpty()) {
        state_->setText(
            tr("Type what you remember of a build, customer, part, note, reading or open item. "
               "All words must be there; “bra hal” finds Brandvold's Halden."));
    } else {
        state_->setText(
            tr("Nothing has all of these words. Fewer words, or only their "
               "beginnings, find more."));
    }
    if (std::exchange(open_first_, false)) open_row(table_->currentRow());
}

void FindPage::open_row(int row) {
    if (row < 0 || row >= static_cast<int>(lines_.size())) return;
    const FoundLine line = lines_[static_cast<std::size_t>(row)];
    emit record_wanted(line.record, line.build_id);
}

/// Up and Down walk through what was found without leaving the box.
bool FindPage::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress && !lines_.empty()) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        constexpr int page = 10;
        const int step = key == Qt::Key_Down       ? 1
                         : key == Qt::Key_Up       ? -1
                         : key == Qt::Key_PageDown ? page
                         : key == Qt::Key_PageUp   ? -page
                                                   : 0;
        if (step != 0) {
            table_->setCurrentCell(
                std::clamp(table_->currentRow() + step, 0, table_->rowCount() - 1), called_column);
            return true;
        }
    }
    return PlacePage::eventFilter(watched, event);
}

} // namespace rodway
