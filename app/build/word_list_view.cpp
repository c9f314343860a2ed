#include "app/build/word_list_view.h"

#include <QScrollBar>
#include <algorithm>

namespace rodway {
namespace {

constexpr int id_role = Qt::UserRole;

} // namespace

WordListView::WordListView(const char* name, const QString& accessible_name, QWidget* parent)
    : QListWidget(parent) {
    setObjectName(name);
    setAccessibleName(accessible_name);
    setWordWrap(true);
    setResizeMode(QListView::Adjust);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setTextElideMode(Qt::ElideNone);
    setSpacing(2);
    connect(this, &QListWidget::currentRowChanged, this, [this] {
        if (!filling_) {
            emit row_chosen(chosen());
        }
    });
    connect(this, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
        if (!filling_) {
            emit row_checked(item->data(id_role).toLongLong(), item->checkState() == Qt::Checked);
        }
    });
}

void WordListView::set_rows(const std::vector<Row>& rows) {
    filling_ = true;
    const qint64 before = chosen();
    const int scrolled = verticalScrollBar()->value();
    while (count() > static_cast<int>(rows.size())) {
        delete takeItem(count() - 1);
    }
    for (std::size_t at = 0; at < rows.size(); ++at) {
        const Row& row = rows[at];
        if (static_cast<int>(at) >= count()) {
            addItem(new QListWidgetItem);
        }
        QListWidgetItem* shown = item(static_cast<int>(at));
        shown->setData(id_role, row.id);
        shown->setText(row.text);
        shown->setIcon(row.sign);
        shown->setData(Qt::AccessibleTextRole, row.spoken.isEmpty() ? row.text : row.spoken);
        shown->setData(
            Qt::CheckStateRole,
            row.checked ? QVariant(*row.checked ? Qt::Checked : Qt::Unchecked) : QVariant());
        QFont weight = font();
        weight.setBold(row.bold);
        shown->setFont(weight);
        Qt::ItemFlags flags = Qt::ItemIsEnabled;
        if (row.id != 0) {
            flags |= Qt::ItemIsSelectable;
        }
        if (row.checked) {
            flags |= Qt::ItemIsUserCheckable;
        }
        shown->setFlags(flags);
    }
    choose(before);
    verticalScrollBar()->setValue(scrolled);
    filling_ = false;
    if (chosen() != before) {
        emit row_chosen(chosen());
    }
}

qint64 WordListView::chosen() const {
    return currentItem() == nullptr ? 0 : currentItem()->data(id_role).toLongLong();
}

void WordListView::choose(qint64 id) {
    int wanted = -1;
    for (int row = 0; row < count(); ++row) {
        const qint64 there = item(row)->data(id_role).toLongLong();
        if (there == id && id != 0) {
            wanted = row;
            break;
        }
        if (wanted < 0 && there != 0) {
            wanted = row;
        }
    }
    setCurrentRow(wanted);
}

void WordListView::fit_to_rows(int most_px) {
    int height = 2 * frameWidth() + 2;
    for (int row = 0; row < count(); ++row) {
        height += sizeHintForRow(row) + 2 * spacing();
    }
    setFixedHeight(std::min(height, most_px));
}

void WordListView::resizeEvent(QResizeEvent* event) {
    QListWidget::resizeEvent(event);
    // Rows that wrap become higher or lower.
    scheduleDelayedItemsLayout();
}

} // namespace rodway
