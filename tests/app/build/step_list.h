#pragma once

#include <QListWidget>
#include <QTest>
#include <stdexcept>

namespace rodway {

/// The row of the steps' list that begins so.
inline QListWidgetItem* step_row(const QWidget& window, const QString& beginning) {
    auto* list = window.findChild<QListWidget*>("steps");
    for (int row = 0; row < list->count(); ++row) {
        if (list->item(row)->text().startsWith(beginning)) {
            return list->item(row);
        }
    }
    throw std::runtime_error("no such step: " + beginning.toStdString());
}

/// Ticks it, or takes the tick back, as a person does by keyboard.
inline void press_space_on(QListWidgetItem* row) {
    row->listWidget()->setCurrentItem(row);
    row->listWidget()->setFocus();
    QTest::keyClick(row->listWidget(), Qt::Key_Space);
}

} // namespace rodway
