#include "app/valvetrain/row_table.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <algorithm>

#include "app/widgets/plain_tip.h"

namespace rodway {

RowTable::RowTable(const char* name, const QString& accessible_name, const QStringList& columns,
                   QWidget* parent)
    : QTableWidget(parent) {
    setObjectName(name);
    setAccessibleName(accessible_name);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    horizontalHeader()->setHighlightSections(false);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setTabKeyNavigation(false);
    setWordWrap(true);
    set_columns(columns);
    connect(this, &QTableWidget::cellClicked, this, &RowTable::chosen);
}

void RowTable::set_columns(const QStringList& columns) {
    const QSignalBlocker quiet(this);
    setRowCount(0);
    setColumnCount(static_cast<int>(columns.size()));
    setHorizontalHeaderLabels(columns);
    set_stretched(0);
}

void RowTable::set_stretched(int column) {
    horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    if (column < columnCount()) {
        horizontalHeader()->setSectionResizeMode(column, QHeaderView::Stretch);
    }
}

void RowTable::set_width(int column, int width) {
    horizontalHeader()->setSectionResizeMode(column, QHeaderView::Fixed);
    setColumnWidth(column, width);
}

void RowTable::set_rows(const std::vector<QStringList>& rows) {
    const int in_hand = currentRow();
    const QSignalBlocker quiet(this);
    setRowCount(static_cast<int>(rows.size()));
    for (int row = 0; row < rowCount(); ++row) {
        const QStringList& texts = rows[static_cast<std::size_t>(row)];
        for (int column = 0; column < columnCount(); ++column) {
            const QString text = column < texts.size() ? texts[column] : QString();
            auto* cell = new QTableWidgetItem(text);
            cell->setToolTip(plain_tip(text));
            const bool number =
                std::find(numbers_.begin(), numbers_.end(), column) != numbers_.end();
            cell->setTextAlignment((number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
            setItem(row, column, cell);
        }
    }
    if (in_hand >= 0 && in_hand < rowCount()) {
        setCurrentCell(in_hand, 0);
    }
}

void RowTable::mark_row(int row) {
    for (int at = 0; at < rowCount(); ++at) {
        for (int column = 0; column < columnCount(); ++column) {
            QFont look = font();
            look.setBold(at == row);
            item(at, column)->setFont(look);
        }
    }
}

void RowTable::keyPressEvent(QKeyEvent* event) {
    const bool choose = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter ||
                        event->key() == Qt::Key_Space;
    if (choose && currentRow() >= 0) {
        emit chosen(currentRow());
        return;
    }
    QTableWidget::keyPressEvent(event);
}

} // namespace rodway
