#include "tests/app/month/hand.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAccessible>
#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QDir>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QMenu>
#include <QMenuBar>
#include <QPainter>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QStatusBar>
#include <QTabBar>
#include <QTableView>
#include <QTest>
#include <QTextDocumentFragment>
#include <QTimer>
#include <QToolButton>
#include <stdexcept>

namespace rodway::tests {
namespace {

constexpr int patience_ms = 20000;
constexpr int look_every_ms = 5;
constexpr int most_rows = 500;

[[noreturn]] void give_up(const QString& why) {
    throw std::runtime_error(why.toStdString());
}

/// As someone hears it who can't see the window; what the program itself calls it.
QString name_of(QWidget* widget) {
    if (!widget->accessibleName().isEmpty()) {
        return widget->accessibleName();
    }
    const auto* spoken = QAccessible::queryAccessibleInterface(widget);
    return spoken == nullptr ? QString() : spoken->text(QAccessible::Name).trimmed();
}

QString plain(const QString& text) {
    return Qt::mightBeRichText(text) ? QTextDocumentFragment::fromHtml(text).toPlainText() : text;
}

QString row_text(const QAbstractItemView& view, int row) {
    const QAbstractItemModel& model = *view.model();
    QStringList cells;
    for (int column = 0; column < model.columnCount(); ++column) {
        const QString cell = model.index(row, column).data().toString();
        if (!cell.isEmpty()) {
            cells << cell;
        }
    }
    return cells.join(QStringLiteral(" | "));
}

/// What an open dialog would still be missing.
QStringList words_in(const QWidget& root) {
    QStringList words;
    for (const QLabel* label : root.findChildren<QLabel*>()) {
        if (label->isVisible()) {
            words << plain(label->text());
        }
    }
    for (const QAbstractItemView* view : root.findChildren<QAbstractItemView*>()) {
        for (int row = 0; view->isVisible() && view->model() != nullptr &&
                          row < std::min(view->model()->rowCount(), most_rows);
             ++row) {
            words << row_text(*view, row);
        }
    }
    for (const QLineEdit* edit : root.findChildren<QLineEdit*>()) {
        if (edit->isVisible()) {
            words << edit->text();
        }
    }
    for (const QStatusBar* bar : root.findChildren<QStatusBar*>()) {
        words << bar->currentMessage();
    }
    words.removeAll(QString());
    return words;
}

void scroll_to(QWidget& widget) {
    for (QWidget* outer = widget.parentWidget(); outer != nullptr; outer = outer->parentWidget()) {
        if (auto* area = qobject_cast<QScrollArea*>(outer)) {
            area->ensureWidgetVisible(&widget, 8, 8);
        }
    }
}

} // namespace

Hand::Hand(QWidget& window, QString shots, std::function<bool()> busy)
    : window_(window), shots_(std::move(shots)), busy_(std::move(busy)) {
    if (!shots_.isEmpty() && !QDir().mkpath(shots_)) {
        give_up("no folder for pictures: " + shots_);
    }
}

QWidget& Hand::top() const {
    QWidget* modal = QApplication::activeModalWidget();
    return modal != nullptr ? *modal : window_;
}

QWidget& Hand::scope(const QString& in) const {
    if (in.isEmpty()) {
        return top();
    }
    for (QWidget* widget : top().findChildren<QWidget*>()) {
        if (widget->isVisible() && widget->accessibleName() == in) {
            return *widget;
        }
    }
    give_up(QString("nothing in view is called “%1”; in view: %2")
                .arg(in, words_in(top()).join(" / ")));
}

template <typename Widget>
Widget& Hand::find(const QString& words, const QString& in) {
    QList<Widget*> found;
    QStringList others;
    for (Widget* widget : scope(in).template findChildren<Widget*>()) {
        if (!widget->isVisible()) {
            continue;
        }
        const QString name = name_of(widget);
        others << name;
        // A box whose list opens holds a line of the same name.
        if (name == words && qobject_cast<QComboBox*>(widget->parentWidget()) == nullptr) {
            found << widget;
        }
    }
    if (found.size() != 1) {
        others.removeAll(QString());
        give_up(QString("%1 called “%2” %3; there are: %4; in view: %5")
                    .arg(found.size())
                    .arg(words, in, others.join(", "), words_in(top()).join(" / ")));
    }
    return *found.front();
}

/// As a finger does: the widget must be in view, enabled, and with nothing over it.
void Hand::click(QWidget& widget, QPoint at) {
    // A click gives its window the keyboard, whether there is a window manager or not.
    QApplication::processEvents();
    const auto active = [&] { return QApplication::activeWindow() == widget.window(); };
    if (!active()) {
        widget.window()->activateWindow();
        if (!QTest::qWaitFor(active, patience_ms)) {
            give_up("the window doesn't get the keyboard");
        }
    }
    scroll_to(widget);
    QApplication::processEvents();
    const QString name = name_of(&widget);
    if (!widget.isEnabled()) {
        give_up(
            QString("“%1” can't be used now; in view: %2").arg(name, words_in(top()).join(" / ")));
    }
    QWidget* root = widget.window();
    const QPoint in_root = widget.mapTo(root, at);
    QWidget* there = root->childAt(in_root);
    if (!root->rect().contains(in_root) || there == nullptr ||
        (there != &widget && !widget.isAncestorOf(there))) {
        give_up(QString("“%1” can't be reached by the mouse").arg(name));
    }
    QTest::mouseClick(&widget, Qt::LeftButton, Qt::NoModifier, at);
}

void Hand::press(const QString& words, const QString& in) {
    auto& button = find<QAbstractButton>(words, in);
    click(button, button.rect().center());
}

void Hand::place(const QString& name) {
    auto& button = find<QToolButton>(name, {});
    click(button, button.rect().center());
}

bool Hand::is_ticked(const QString& list, int row) {
    return list_called(list).model()->index(row, 0).data(Qt::CheckStateRole).toInt() == Qt::Checked;
}

bool Hand::can_press(const QString& words, const QString& in) {
    return find<QAbstractButton>(words, in).isEnabled();
}

void Hand::type(const QString& label, const QString& text, const QString& in) {
    QWidget* box = nullptr;
    for (QWidget* widget : scope(in).findChildren<QWidget*>()) {
        const bool takes_text = qobject_cast<QLineEdit*>(widget) != nullptr ||
                                qobject_cast<QPlainTextEdit*>(widget) != nullptr;
        if (widget->isVisible() && takes_text && name_of(widget) == label) {
            if (box != nullptr) {
                give_up(QString("two boxes are called “%1”").arg(label));
            }
            box = widget;
        }
    }
    if (box == nullptr) {
        give_up(QString("no box is called “%1” %2; in view: %3")
                    .arg(label, in, words_in(top()).join(" / ")));
    }
    click(*box, QPoint(6, box->height() / 2));
    // A list that takes other words hands its keys on to its line.
    const QWidget* in_hand = QApplication::focusWidget();
    if (in_hand != box && in_hand != qobject_cast<QComboBox*>(box->parentWidget())) {
        give_up(QString("“%1” doesn't take the keyboard, %2 has it")
                    .arg(label, in_hand == nullptr ? QString("nothing")
                                                   : in_hand->accessibleName() + ' ' +
                                                         in_hand->metaObject()->className()));
    }
    const auto all =
        qobject_cast<QPlainTextEdit*>(box) != nullptr ? Qt::ControlModifier : Qt::NoModifier;
    key(Qt::Key_Home, all);
    key(Qt::Key_End, all | Qt::ShiftModifier);
    key(Qt::Key_Delete);
    type_on(text);
}

void Hand::type_on(const QString& text) {
    for (const QChar sign : text) {
        QWidget* in_hand = QApplication::focusWidget();
        if (in_hand == nullptr) {
            give_up("nothing has the keyboard");
        }
        QTest::keyClicks(in_hand, QString(sign));
    }
}

void Hand::key(Qt::Key key, Qt::KeyboardModifiers modifiers) {
    QWidget* popup = QApplication::activePopupWidget();
    QWidget* in_hand = popup != nullptr ? popup : QApplication::focusWidget();
    if (in_hand == nullptr) {
        give_up("nothing has the keyboard");
    }
    QTest::keyClick(in_hand, key, modifiers);
}

void Hand::pick(const QString& label, const QString& entry, const QString& in) {
    auto& box = find<QComboBox>(label, in);
    int wanted = -1;
    QStringList offered;
    for (int at = box.count() - 1; at >= 0; --at) {
        offered << box.itemText(at);
        wanted = box.itemText(at).startsWith(entry) ? at : wanted;
    }
    if (wanted < 0) {
        give_up(QString("“%1” doesn't offer “%2”, but: %3").arg(label, entry, offered.join(", ")));
    }
    click(box, QPoint(box.width() - 8, box.height() / 2));
    QAbstractItemView& list = *box.view();
    if (!list.isVisible()) {
        give_up(QString("the list of “%1” doesn't open").arg(label));
    }
    for (int tries = 0; list.currentIndex().row() != wanted && tries < most_rows; ++tries) {
        QTest::keyClick(&list, list.currentIndex().row() < wanted ? Qt::Key_Down : Qt::Key_Up);
    }
    QTest::keyClick(&list, Qt::Key_Return);
    if (box.currentIndex() != wanted && list.isVisible()) {
        give_up(QString("“%1” doesn't take “%2”").arg(label, entry));
    }
}

void Hand::set(const QString& label, bool on, const QString& in) {
    auto& box = find<QCheckBox>(label, in);
    if (box.isChecked() != on) {
        click(box, QPoint(10, box.height() / 2));
    }
    if (box.isChecked() != on) {
        give_up(QString("“%1” stays as it is").arg(label));
    }
}

void Hand::tab(const QString& words) {
    QStringList others;
    for (QTabBar* bar : top().findChildren<QTabBar*>()) {
        for (int at = 0; bar->isVisible() && at < bar->count(); ++at) {
            others << bar->tabText(at);
            if (bar->tabText(at).remove('&') == words) {
                click(*bar, bar->tabRect(at).center());
                return;
            }
        }
    }
    give_up(QString("no tab is called “%1”; there are: %2").arg(words, others.join(", ")));
}

void Hand::menu(const QString& title, const QString& entry) {
    auto& bar = *window_.findChild<QMenuBar*>();
    for (QAction* action : bar.actions()) {
        if (action->text().remove('&') == title) {
            QTest::mouseClick(&bar, Qt::LeftButton, Qt::NoModifier,
                              bar.actionGeometry(action).center());
        }
    }
    auto* open = qobject_cast<QMenu*>(QApplication::activePopupWidget());
    if (open == nullptr) {
        give_up(QString("no menu “%1” opens").arg(title));
    }
    for (QAction* action : open->actions()) {
        if (!action->text().remove('&').startsWith(entry)) {
            continue;
        }
        if (!action->isEnabled()) {
            give_up(QString("“%1” can't be chosen now").arg(entry));
        }
        for (int tries = 0; open->activeAction() != action && tries < most_rows; ++tries) {
            QTest::keyClick(open, Qt::Key_Down);
        }
        QTest::keyClick(open, Qt::Key_Return);
        return;
    }
    give_up(QString("the menu “%1” has no “%2”").arg(title, entry));
}

QAbstractItemView& Hand::list_called(const QString& name) {
    QList<QAbstractItemView*> found;
    QStringList others;
    for (QAbstractItemView* view : top().findChildren<QAbstractItemView*>()) {
        if (view->isVisible() && qobject_cast<QHeaderView*>(view) == nullptr) {
            others << view->accessibleName();
            if (view->accessibleName() == name) {
                found << view;
            }
        }
    }
    if (found.size() != 1) {
        give_up(QString("%1 lists called “%2”; there are: %3; in view: %4")
                    .arg(found.size())
                    .arg(name, others.join(", "), words_in(top()).join(" / ")));
    }
    return *found.front();
}

QStringList Hand::rows(const QString& list) {
    const QAbstractItemView& view = list_called(list);
    QStringList rows;
    for (int row = 0; row < view.model()->rowCount(); ++row) {
        rows << row_text(view, row);
    }
    return rows;
}

void Hand::click_row(QAbstractItemView& view, int row) {
    const int column = qobject_cast<QTableView*>(&view) == nullptr ? 0 : 1;
    const QModelIndex index = view.model()->index(row, column);
    view.scrollTo(index);
    QApplication::processEvents();
    const QRect place = view.visualRect(index) & view.viewport()->rect();
    if (place.isEmpty()) {
        give_up("the row can't be seen: " + row_text(view, row));
    }
    // Beside a box to tick, not on it.
    const int beside = qobject_cast<QListView*>(&view) != nullptr ? place.width() / 2 : 8;
    click(*view.viewport(), QPoint(place.left() + beside, place.center().y()));
}

void Hand::choose_row(const QString& list, int row) {
    click_row(list_called(list), row);
}

void Hand::choose(const QString& list, const QString& words) {
    const QStringList there = rows(list);
    for (int row = 0; row < there.size(); ++row) {
        if (there[row].contains(words)) {
            click_row(list_called(list), row);
            return;
        }
    }
    give_up(QString("no row of “%1” has “%2”; it has: %3").arg(list, words, there.join(" / ")));
}

void Hand::answer(const std::function<void()>& open, const std::function<void()>& work) {
    const QWidget* before = QApplication::activeModalWidget();
    std::exception_ptr trouble;
    bool seen = false;
    QTimer poll;
    QObject::connect(&poll, &QTimer::timeout, &poll, [&] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        if (dialog == nullptr || dialog == before || !dialog->isVisible()) {
            return;
        }
        poll.stop();
        seen = true;
        try {
            work();
            if (dialog->isVisible()) {
                give_up(QString("“%1” is still open; in view: %2")
                            .arg(dialog->windowTitle(), words_in(*dialog).join(" / ")));
            }
        } catch (...) {
            trouble = std::current_exception();
            look("trouble");
            dialog->reject();
        }
    });
    poll.start(look_every_ms);
    open();
    if (trouble) {
        std::rethrow_exception(trouble);
    }
    if (!seen) {
        give_up("no dialog opened; in view: " + words_in(top()).join(" / "));
    }
}

void Hand::give_file(const std::function<void()>& open, const QString& file) {
    answer(open, [&] {
        type("File name:", file);
        key(Qt::Key_Return);
    });
}

void Hand::fill_column(const QString& heading, const QStringList& values, int first_row) {
    auto& table = static_cast<QTableView&>(list_called("Measurement sheet"));
    const QAbstractItemModel& model = *table.model();
    QStringList headings;
    for (int column = 0; column < model.columnCount(); ++column) {
        headings << model.headerData(column, Qt::Horizontal).toString();
        if (table.isColumnHidden(column) || !(headings.back() + ',').startsWith(heading + ',')) {
            continue;
        }
        const QModelIndex first = model.index(first_row, column);
        table.scrollTo(first);
        QApplication::processEvents();
        click(*table.viewport(), table.visualRect(first).center());
        for (int row = 0; row < values.size(); ++row) {
            type_on(values[row]);
            key(Qt::Key_Return);
            if (model.index(first_row + row, column).data() != values[row] ||
                table.currentIndex() == first) {
                give_up(QString("the sheet doesn't take “%1”; in view: %2")
                            .arg(values[row], words_in(top()).join(" / ")));
            }
        }
        return;
    }
    give_up(QString("the sheet has no column “%1”, but: %2").arg(heading, headings.join(", ")));
}

bool Hand::sees(const QString& words) {
    for (const QString& seen : words_in(top())) {
        if (seen.contains(words)) {
            return true;
        }
    }
    return false;
}

void Hand::see(const QString& words) {
    if (!QTest::qWaitFor([&] { return sees(words); }, patience_ms)) {
        give_up(QString("“%1” doesn't come into view; in view: %2")
                    .arg(words, words_in(top()).join(" / ")));
    }
}

void Hand::settle() {
    if (!QTest::qWaitFor([&] { return !busy_() && !sees("Working out") && !sees(" | …"); },
                         patience_ms)) {
        give_up("it is worked out without end");
    }
}

void Hand::look(const QString& name) {
    if (shots_.isEmpty()) {
        return;
    }
    settle();
    QTest::qWait(30); // what paints late, such as rows that wrap
    QPixmap picture = window_.grab();
    QPainter painter(&picture);
    if (QWidget* modal = QApplication::activeModalWidget()) {
        painter.drawPixmap(modal->mapToGlobal(QPoint()) - window_.mapToGlobal(QPoint()),
                           modal->grab());
    }
    painter.end();
    ++shot_;
    const QString file = QDir(shots_).filePath(
        QString("%1-%2.png").arg(shot_, 3, 10, QChar('0')).arg(QString(name).replace(' ', '-')));
    if (!picture.save(file)) {
        give_up("can't write " + file);
    }
}

} // namespace rodway::tests
