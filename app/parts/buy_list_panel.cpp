#include "app/parts/buy_list_panel.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QItemSelectionModel>
#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/parts/part_changes.h"
#include "app/parts/part_sign.h"
#include "app/widgets/typed_form.h"
#include "app/words/account_words.h"
#include "app/words/counted.h"
#include "app/words/error_text.h"
#include "app/words/part_state_words.h"
#include "app/work/shop_day.h"
#include "core/build/part_wait.h"

namespace rodway {
namespace {

enum Column { supplier_column, part_column, build_column, state_column, frees_column, cost_column };

QString text(const std::optional<std::string>& utf8) {
    return QString::fromStdString(utf8.value_or(std::string()));
}

QTableWidgetItem* cell(const QString& words, const QString& tip = {}) {
    auto* item = new QTableWidgetItem(words);
    item->setToolTip(tip.isEmpty() ? words : tip);
    return item;
}

QString supplier_of(const BuyLine& line) {
    if (line.part.supplier) {
        return text(line.part.supplier);
    }
    return line.part.owner == PartOwner::customer ? BuyListPanel::tr("the customer brings it")
                                                  : BuyListPanel::tr("no supplier yet");
}

QString frees(const Unblocked& one) {
    const QString what =
        one.gate ? BuyListPanel::tr("gate “%1” of %2") : BuyListPanel::tr("step “%1” of %2");
    const QString named =
        what.arg(QString::fromStdString(one.title), QString::fromStdString(one.stage));
    return one.others == 0
               ? BuyListPanel::tr("sets free: %1").arg(named)
               : BuyListPanel::tr("%1, which waits for %2 more").arg(named).arg(one.others);
}

/// The first in the cell, all of them in its tip.
QTableWidgetItem* frees_cell(const BuyLine& line) {
    QStringList all;
    for (const Unblocked& one : line.unblocks) {
        all << frees(one);
    }
    if (all.isEmpty()) {
        return cell(BuyListPanel::tr("nothing waits for it by itself"));
    }
    const QString first =
        all.size() == 1 ? all.front()
                        : BuyListPanel::tr("%1, and %2 more").arg(all.front()).arg(all.size() - 1);
    return cell(first, all.join('\n'));
}

} // namespace

BuyListPanel::BuyListPanel(QWidget* parent)
    : QWidget(parent),
      stack_(new QStackedWidget),
      table_(new QTableWidget(0, cost_column + 1)),
      sums_(new QLabel),
      marks_(new TypedForm(TypedForm::Shape::row)) {
    sums_->setWordWrap(true);
    sums_->setObjectName("buy_sums");
    table_->setObjectName("buy_list");
    table_->setAccessibleName(tr("Parts to come, of all builds"));
    table_->setHorizontalHeaderLabels({tr("Supplier"), tr("Part"), tr("Build"), tr("State"),
                                       tr("What its arrival does"), tr("Cost")});
    table_->horizontalHeaderItem(cost_column)->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setSectionResizeMode(frees_column, QHeaderView::Stretch);
    table_->setColumnWidth(supplier_column, 160);
    table_->setColumnWidth(part_column, 210);
    table_->setColumnWidth(build_column, 130);
    table_->setColumnWidth(state_column, 250);
    table_->setColumnWidth(cost_column, 80);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setDefaultSectionSize(30);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::ExtendedSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setAlternatingRowColors(true);
    table_->setShowGrid(false);
    table_->setTabKeyNavigation(false);
    table_->setIconSize({part_sign_px, part_sign_px});

    marks_->add_line("day", tr("Day of the mark, on all rows selected"), tr("today"));
    marks_->setMaximumWidth(620);
    const std::pair<QString, PartMark> buttons[] = {{tr("&Ordered"), PartMark::ordered},
                                                    {tr("Pro&mised for"), PartMark::promised},
                                                    {tr("Re&ceived"), PartMark::received}};
    for (const auto& [label, mark_of_button] : buttons) {
        auto* button = new QPushButton(label);
        button->setObjectName(QString::fromStdString("buy_" + part_mark_word(mark_of_button)));
        marks_->add_at_end(button);
        need_row_.push_back(button);
        connect(button, &QPushButton::clicked, this,
                [this, mark_of_button = mark_of_button] { mark(mark_of_button); });
    }
    auto* empty = new QLabel(
        tr("Nothing is to come.\nParts that a build needs and that aren't here yet stand in this "
           "list, of all builds, by supplier. They are added under “This build”."));
    empty->setAlignment(Qt::AlignCenter);
    empty->setWordWrap(true);
    stack_->addWidget(table_);
    stack_->addWidget(empty);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    auto* print = new QPushButton(tr("&Print…"));
    print->setObjectName("print_buy_list");
    print->setAccessibleName(tr("Write the buy list for paper"));
    auto* head = new QHBoxLayout;
    head->addWidget(sums_, 1);
    head->addWidget(print);
    layout->addLayout(head);
    layout->addWidget(stack_, 1);
    layout->addWidget(marks_);
    connect(print, &QPushButton::clicked, this, &BuyListPanel::print_wanted);
    connect(table_->selectionModel(), &QItemSelectionModel::selectionChanged, this, [this] {
        for (QPushButton* button : need_row_) {
            button->setEnabled(!selected().empty());
        }
    });
}

void BuyListPanel::take(ShopSession* session) {
    session_ = session;
    lines_.clear();
    table_->setRowCount(0);
    marks_->clear();
}

void BuyListPanel::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

void BuyListPanel::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && session_ != nullptr) {
        show_rows();
    }
}

void BuyListPanel::refresh() {
    if (session_ == nullptr || !isVisible()) {
        return;
    }
    today_ = shop_day(session_->now()).day;
    auto loaded = load_buy_list(session_->shop(), today_);
    if (!loaded) {
        emit failed(words::error_text(loaded.error()));
        return;
    }
    lines_ = std::move(loaded).value();
    show_rows();
    show_sums();
}

void BuyListPanel::show_rows() {
    const int current = table_->currentRow();
    const Palette palette = palette_for(theme_of(this->palette()));
    table_->setRowCount(static_cast<int>(lines_.size()));
    for (int row = 0; row < table_->rowCount(); ++row) {
        const BuyLine& line = lines_[static_cast<std::size_t>(row)];
        table_->setItem(row, supplier_column, cell(supplier_of(line)));
        table_->setItem(row, part_column, cell(words::part_title(line.part)));
        table_->setItem(row, build_column, cell(QString::fromStdString(line.build)));
        auto* state = cell(words::part_standing(line.part, today_));
        state->setIcon(part_sign(line.part, today_, palette));
        table_->setItem(row, state_column, state);
        table_->setItem(row, frees_column, frees_cell(line));
        auto* cost = cell(line.part.cost ? words::money(*line.part.cost) : QString());
        cost->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
        table_->setItem(row, cost_column, cost);
    }
    stack_->setCurrentIndex(lines_.empty() ? 1 : 0);
    if (table_->rowCount() > 0) {
        table_->setCurrentCell(std::clamp(current, 0, table_->rowCount() - 1), part_column);
    }
    for (QPushButton* button : need_row_) {
        button->setEnabled(!selected().empty());
    }
}

void BuyListPanel::show_sums() {
    const auto late = std::count_if(lines_.begin(), lines_.end(), [this](const BuyLine& line) {
        return part_wait(line.part, today_) == PartWait::overdue;
    });
    std::vector<std::pair<QString, int>> suppliers;
    for (const BuyLine& line : lines_) {
        const QString name = supplier_of(line);
        if (suppliers.empty() || suppliers.back().first.compare(name, Qt::CaseInsensitive) != 0) {
            suppliers.emplace_back(name, 0);
        }
        ++suppliers.back().second;
    }
    QStringList counts;
    for (const auto& [name, count] : suppliers) {
        counts << tr("%1: %2").arg(name).arg(count);
    }
    sums_->setText(lines_.empty() ? QString()
                                  : tr("%1 to come, %2 late. %3")
                                        .arg(words::counted(static_cast<int>(lines_.size()),
                                                            tr("1 part"), tr("%1 parts")))
                                        .arg(late)
                                        .arg(counts.join(QStringLiteral("  ·  "))));
}

std::vector<PartRecord> BuyListPanel::selected() const {
    std::vector<PartRecord> parts;
    for (const QModelIndex& row : table_->selectionModel()->selectedRows()) {
        if (static_cast<std::size_t>(row.row()) < lines_.size()) {
            parts.push_back(lines_[static_cast<std::size_t>(row.row())].part);
        }
    }
    return parts;
}

void BuyListPanel::mark(PartMark mark) {
    const std::vector<PartRecord> parts = selected();
    if (session_ == nullptr || parts.empty()) {
        return;
    }
    marks_->quiet();
    const std::string typed = QString::fromStdString(marks_->text("day")).trimmed().toStdString();
    if (typed.empty() && mark == PartMark::promised) {
        marks_->complain(Error{ErrorCode::empty_text, "day", {}, {}, {}, {}});
        return;
    }
    const auto done = mark_parts(*session_, parts, mark, typed.empty() ? today_ : typed, today_);
    if (!done && !is_waiting(done.error())) {
        Error error = done.error();
        if (error.field == part_mark_word(mark)) {
            error.field = "day"; // the box in which it was typed
        }
        marks_->complain(error);
        return;
    }
    marks_->clear();
    emit said(
        tr("Marked %1.")
            .arg(words::counted(static_cast<int>(parts.size()), tr("1 part"), tr("%1 parts"))));
}

} // namespace rodway
