#include "tests/app/every_box/boxes.h"

#include <QAbstractSpinBox>
#include <QAccessible>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QStatusBar>
#include <QTableWidget>
#include <QTest>
#include <algorithm>

namespace rodway::tests {
namespace {

bool is_open_cell(const QTableWidgetItem* item) {
    return item != nullptr && item->flags().testFlag(Qt::ItemIsEditable) &&
           item->flags().testFlag(Qt::ItemIsEnabled);
}

void add_cells(QTableWidget& table, std::vector<Box>& boxes) {
    if (table.editTriggers() == QAbstractItemView::NoEditTriggers) {
        return;
    }
    for (int column = 0; column < table.columnCount(); ++column) {
        for (int row = 0; row < table.rowCount(); ++row) {
            if (is_open_cell(table.item(row, column))) {
                const auto* heading = table.horizontalHeaderItem(column);
                boxes.push_back(
                    {&table, row, column,
                     QString("%1, %2").arg(name_of_box(table),
                                           heading != nullptr ? heading->text() : QString())});
                break;
            }
        }
    }
}

QWidget* editor_of(const Box& box) {
    auto* table = qobject_cast<QTableWidget*>(box.widget);
    if (table == nullptr) {
        return box.widget;
    }
    table->setFocus();
    table->setCurrentCell(box.row, box.column);
    table->editItem(table->item(box.row, box.column));
    return table->viewport()->findChild<QLineEdit*>();
}

} // namespace

QString name_of_box(const QWidget& widget) {
    const QWidget* named = &widget;
    const QWidget* outer = widget.parentWidget();
    if (widget.accessibleName().isEmpty() && (qobject_cast<const QComboBox*>(outer) != nullptr ||
                                              qobject_cast<const QAbstractSpinBox*>(outer))) {
        named = outer;
    }
    if (!named->accessibleName().isEmpty()) {
        return named->accessibleName();
    }
    // A label's buddy goes by the label.
    auto* spoken = QAccessible::queryAccessibleInterface(const_cast<QWidget*>(named));
    const QString heard = spoken == nullptr ? QString() : spoken->text(QAccessible::Name).trimmed();
    return heard.isEmpty() ? named->objectName() : heard;
}

bool takes_words(const QWidget& widget) {
    if (const auto* line = qobject_cast<const QLineEdit*>(&widget)) {
        return !line->isReadOnly();
    }
    const auto* text = qobject_cast<const QPlainTextEdit*>(&widget);
    return text != nullptr && !text->isReadOnly();
}

std::vector<Box> boxes_in(QWidget& root) {
    std::vector<Box> boxes;
    for (QWidget* widget : root.findChildren<QWidget*>()) {
        if (!widget->isVisible() || !widget->isEnabled() || widget->window() != root.window()) {
            continue;
        }
        if (auto* table = qobject_cast<QTableWidget*>(widget)) {
            add_cells(*table, boxes);
        } else if (takes_words(*widget)) {
            boxes.push_back({widget, -1, -1, name_of_box(*widget)});
        }
    }
    return boxes;
}

QString put_in(const Box& box, const QString& text) {
    QApplication::clipboard()->setText(text);
    QWidget* editor = editor_of(box);
    if (auto* line = qobject_cast<QLineEdit*>(editor)) {
        line->setFocus();
        line->selectAll();
        line->del();
        line->paste();
        const QString there = line->text();
        QTest::keyClick(line, Qt::Key_Return);
        return there;
    }
    if (auto* lines = qobject_cast<QPlainTextEdit*>(editor)) {
        lines->setFocus();
        lines->selectAll();
        lines->paste();
        const QString there = lines->toPlainText();
        QTest::keyClick(lines, Qt::Key_Return); // keeps a note, begins a line in another text
        QTest::keyClick(lines, Qt::Key_Tab);
        return there;
    }
    return {};
}

QStringList words_in_view(QWidget& root) {
    QStringList words;
    for (const QWidget* widget : root.findChildren<QWidget*>()) {
        if (!widget->isVisible()) {
            continue;
        }
        if (const auto* label = qobject_cast<const QLabel*>(widget)) {
            words << label->text();
        } else if (const auto* bar = qobject_cast<const QStatusBar*>(widget)) {
            words << bar->currentMessage();
        } else if (const auto* list = qobject_cast<const QListWidget*>(widget)) {
            for (int row = 0; row < std::min(list->count(), 50); ++row) {
                words << list->item(row)->text();
            }
        } else if (const auto* table = qobject_cast<const QTableWidget*>(widget)) {
            const QTableWidgetItem* at = table->currentItem();
            for (int column = 0; at != nullptr && column < table->columnCount(); ++column) {
                if (const auto* cell = table->item(at->row(), column)) {
                    words << cell->text() << cell->toolTip();
                }
            }
        }
    }
    words.removeAll(QString());
    return words;
}

} // namespace rodway::tests
