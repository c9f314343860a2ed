#include "app/account/entry_table.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableWidget>
#include <QVBoxLayout>

#include "app/edit_stack/shop_session.h"
#include "app/words/error_text.h"

namespace rodway {

EntryTable::EntryTable(const QString& name, const std::vector<Column>& columns,
                       const QString& empty, QWidget* parent)
    : QWidget(parent),
      stack_(new QStackedWidget),
      table_(new QTableWidget(0, static_cast<int>(columns.size()))),
      form_(new TypedForm(TypedForm::Shape::row)),
      take_(new QPushButton),
      leave_(new QPushButton(tr("&Leave as it was"))),
      change_(new QPushButton(tr("C&hange"))),
      remove_(new QPushButton(tr("Remo&ve"))),
      buttons_(new QHBoxLayout) {
    table_->setAccessibleName(name);
    for (int at = 0; at < table_->columnCount(); ++at) {
        const Column& column = columns[static_cast<std::size_t>(at)];
        auto* head = new QTableWidgetItem(column.title);
        head->setTextAlignment((column.right ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
        head->setData(Qt::UserRole, column.right);
        table_->setHorizontalHeaderItem(at, head);
        if (column.width == 0) {
            table_->horizontalHeader()->setSectionResizeMode(at, QHeaderView::Stretch);
        } else {
            table_->setColumnWidth(at, column.width);
        }
    }
    table_->horizontalHeader()->setHighlightSections(false);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setDefaultSectionSize(28);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setAlternatingRowColors(true);
    table_->setShowGrid(false);
    table_->setTabKeyNavigation(false);
    table_->installEventFilter(this);
    auto* nothing = new QLabel(empty);
    nothing->setAlignment(Qt::AlignCenter);
    nothing->setWordWrap(true);
    stack_->addWidget(table_);
    stack_->addWidget(nothing);

    form_->add_at_end(take_);
    form_->add_at_end(leave_);
    buttons_->addWidget(change_);
    buttons_->addWidget(remove_);
    buttons_->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(8, 8, 8, 8);
    layout->addWidget(stack_, 1);
    layout->addLayout(buttons_);
    layout->addWidget(form_);
    connect(form_, &TypedForm::entered, this, &EntryTable::take_form);
    connect(take_, &QPushButton::clicked, this, &EntryTable::take_form);
    connect(leave_, &QPushButton::clicked, this, &EntryTable::reset);
    connect(change_, &QPushButton::clicked, this, &EntryTable::change_selected);
    connect(remove_, &QPushButton::clicked, this, &EntryTable::remove_selected);
    connect(table_, &QTableWidget::itemActivated, this, &EntryTable::change_selected);
    connect(table_, &QTableWidget::currentCellChanged, this, [this] {
        if (!filling_) {
            emit row_chosen();
        }
    });
    show_mode();
}

void EntryTable::show_mode() {
    take_->setText(changing_ ? tr("&Keep the change") : tr("&Add"));
    leave_->setVisible(changing_.has_value());
    change_->setEnabled(selected().has_value());
    remove_->setEnabled(selected().has_value());
}

void EntryTable::set_rows(const std::vector<Row>& rows) {
    const auto chosen = selected();
    const int was_at = table_->currentRow();
    filling_ = true;
    table_->setRowCount(static_cast<int>(rows.size()));
    int current = std::min(std::max(was_at, 0), table_->rowCount() - 1);
    for (int row = 0; row < table_->rowCount(); ++row) {
        const Row& entry = rows[static_cast<std::size_t>(row)];
        for (int at = 0; at < table_->columnCount(); ++at) {
            auto* item = new QTableWidgetItem(entry.cells.value(at));
            item->setToolTip(entry.cells.value(at));
            const bool right = table_->horizontalHeaderItem(at)->data(Qt::UserRole).toBool();
            item->setTextAlignment((right ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
            table_->setItem(row, at, item);
        }
        table_->item(row, 0)->setData(Qt::UserRole, static_cast<qlonglong>(entry.id));
        table_->item(row, 0)->setIcon(entry.sign);
        if (chosen == entry.id) {
            current = row;
        }
    }
    table_->setCurrentCell(current, 0);
    stack_->setCurrentIndex(rows.empty() ? 1 : 0);
    filling_ = false;
    show_mode();
    emit row_chosen();
}

std::optional<std::int64_t> EntryTable::selected() const {
    const QTableWidgetItem* item = table_->item(table_->currentRow(), 0);
    return item ? std::optional<std::int64_t>(item->data(Qt::UserRole).toLongLong()) : std::nullopt;
}

void EntryTable::select(std::int64_t id) {
    for (int row = 0; row < table_->rowCount(); ++row) {
        if (table_->item(row, 0)->data(Qt::UserRole).toLongLong() == id) {
            table_->setCurrentCell(row, 0);
        }
    }
}

void EntryTable::reset() {
    changing_.reset();
    form_->clear();
    if (show_fresh) {
        show_fresh();
    }
    show_mode();
}

void EntryTable::take_form() {
    form_->quiet();
    const auto done = changing_ ? keep(*changing_) : add();
    if (!done && !is_waiting(done.error())) {
        form_->complain(done.error());
        return;
    }
    const bool added = !changing_;
    reset();
    if (added) {
        form_->focus_first();
    } else {
        table_->setFocus();
    }
}

void EntryTable::change_selected() {
    const auto chosen = selected();
    if (!chosen) {
        return;
    }
    form_->clear();
    changing_ = chosen;
    show_in_form(*chosen);
    show_mode();
    form_->focus_first();
}

void EntryTable::remove_selected() {
    const auto chosen = selected();
    if (!chosen) {
        return;
    }
    if (changing_ == chosen) {
        reset();
    }
    const auto done = remove(*chosen);
    if (!done && !is_waiting(done.error())) {
        emit failed(words::error_text(done.error()));
    }
}

bool EntryTable::eventFilter(QObject* watched, QEvent* event) {
    if (watched == table_ && event->type() == QEvent::KeyPress &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Delete) {
        remove_selected();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace rodway
