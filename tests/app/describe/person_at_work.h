#pragma once

#include <gtest/gtest.h>

#include <QApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QFileDialog>
#include <QLineEdit>
#include <QMenuBar>
#include <QPixmap>
#include <QTest>
#include <QTimer>
#include <functional>

namespace rodway {

/// What a person does at the window, with nothing but keys and clicks, and how long it takes by the
/// keystroke-level model.
///
/// Source: Card, Moran & Newell, "The keystroke-level model for user performance time with
/// interactive systems", Communications of the ACM 23(7), 1980, 396-410: K 0.28 s (average
/// non-secretary typist), P 1.10 s (to point at a target), H 0.40 s (to home the hands on keyboard
/// or mouse), M 1.35 s (to prepare mentally), R as it is waited for. A button of the mouse counts
/// as a key.
class PersonAtWork {
  public:
    explicit PersonAtWork(QWidget* window) : window_(window) {}

    /// As a desktop does when a dialog or a list closes: the window behind it gets the keyboard.
    void be_in_front() {
        QCoreApplication::processEvents();
        if (!QApplication::activeModalWidget() && !QApplication::activePopupWidget() &&
            !window_->isActiveWindow()) {
            QApplication::setActiveWindow(window_);
            EXPECT_TRUE(QTest::qWaitFor([] { return QApplication::focusWidget() != nullptr; }));
        }
    }
    /// Thinks, and then types into whatever has the keyboard.
    void type(const QString& text) {
        to_keyboard();
        ++prepared_;
        for (const QChar letter : text) {
            QWidget* at = QApplication::focusWidget();
            ASSERT_NE(at, nullptr) << "nothing has the keyboard: " << text.toStdString();
            QTest::keyClick(at, letter.toLatin1());
            ++keys_;
        }
    }
    /// `open_list`: that of a choice, which has the keyboard while it is open.
    void press(Qt::Key key, QWidget* open_list = nullptr) {
        to_keyboard();
        QWidget* at = open_list ? open_list : QApplication::focusWidget();
        ASSERT_NE(at, nullptr);
        QTest::keyClick(at, key);
        ++keys_;
    }
    /// Types in place of what stands there.
    void enter(const QString& text) {
        type(text);
        press(Qt::Key_Return);
    }
    void click(QWidget* widget, const QPoint& at = {}) {
        ASSERT_NE(widget, nullptr);
        ASSERT_TRUE(widget->isVisible() && widget->isEnabled())
            << widget->objectName().toStdString();
        to_mouse();
        ++prepared_;
        ++pointed_;
        ++keys_;
        be_in_front();
        QTest::mouseClick(widget, Qt::LeftButton, Qt::NoModifier,
                          at.isNull() ? widget->rect().center() : at);
        QCoreApplication::processEvents();
        be_in_front();
    }
    /// A button by the words on it, among what can be seen.
    template <typename Button>
    Button* button(const QString& text, QWidget* in = nullptr) {
        for (Button* one : (in ? in : window_)->template findChildren<Button*>()) {
            if (one->isVisible() && one->text().remove('&') == text) {
                return one;
            }
        }
        ADD_FAILURE() << "no button " << text.toStdString();
        return nullptr;
    }
    /// A menu, and an entry of it.
    void choose(const QString& menu, const QString& entry) {
        auto* bar = window_->findChild<QMenuBar*>();
        for (QAction* action : bar->actions()) {
            if (action->text().remove('&') != menu) {
                continue;
            }
            click(bar, bar->actionGeometry(action).center());
            QMenu* open = action->menu();
            ASSERT_TRUE(QTest::qWaitFor([&] { return open->isVisible(); }));
            for (QAction* one : open->actions()) {
                if (one->text().remove('&').startsWith(entry)) {
                    click(open, open->actionGeometry(one).center());
                    return;
                }
            }
        }
        ADD_FAILURE() << "no menu entry " << entry.toStdString();
    }
    /// What is to be done in the next dialog that opens; `open` opens it, and comes back when it is
    /// closed.
    template <typename Dialog>
    void in_dialog(const std::function<void()>& open, const std::function<void(Dialog&)>& work) {
        bool seen = false;
        QTimer look;
        look.setInterval(10);
        QObject::connect(&look, &QTimer::timeout, window_, [&] {
            auto* dialog = qobject_cast<Dialog*>(QApplication::activeModalWidget());
            if (dialog == nullptr || seen) {
                return;
            }
            if (!dialog->isActiveWindow()) {
                // Where no desktop gives the keyboard to a window, nobody else does.
                QApplication::setActiveWindow(dialog);
                return;
            }
            seen = true;
            work(*dialog);
            // What went wrong in it must not hang the rest.
            if (dialog->isVisible() && QApplication::activeModalWidget() == dialog) {
                ADD_FAILURE() << "left open: " << dialog->windowTitle().toStdString();
                dialog->reject();
            }
        });
        look.start();
        open();
        EXPECT_TRUE(seen);
        be_in_front();
    }
    /// In a dialog for files: the name, and Enter.
    void name_file(QFileDialog& dialog, const QString& file) {
        auto* edit = dialog.findChild<QLineEdit*>("fileNameEdit");
        ASSERT_NE(edit, nullptr);
        edit->setFocus(); // it has the keyboard as soon as the dialog is the active window
        edit->selectAll();
        enter(file);
        if (dialog.isVisible()) {
            press(Qt::Key_Return); // the first closed the list of names that it had offered
        }
    }
    /// Waits for the program; the time counts.
    void wait_for(const std::function<bool()>& until, const char* what) {
        QElapsedTimer timer;
        timer.start();
        EXPECT_TRUE(QTest::qWaitFor(until, 30000)) << what;
        waited_s_ += static_cast<double>(timer.elapsed()) / 1000.0;
    }

    /// One picture for each step, if somebody wants to look.
    void picture(const QString& name, QWidget* of = nullptr) {
        ++step_;
        const QString folder = qEnvironmentVariable("RODWAY_SHOTS");
        if (folder.isEmpty()) {
            return;
        }
        QDir().mkpath(folder);
        QTest::qWait(60);
        be_in_front();
        QWidget* shown = of ? of : window_;
        shown->grab().save(
            QString("%1/%2-%3.png").arg(folder).arg(step_, 2, 10, QChar('0')).arg(name));
    }

    [[nodiscard]] int steps() const { return keys_ + pointed_; }
    [[nodiscard]] double seconds() const {
        constexpr double K = 0.28;
        constexpr double P = 1.10;
        constexpr double H = 0.40;
        constexpr double M = 1.35;
        return K * keys_ + P * pointed_ + H * homed_ + M * prepared_ + waited_s_;
    }
    [[nodiscard]] QString account() const {
        return QString(
                   "%1 keys and clicks (K 0.28 s, average non-secretary typist), %2 times "
                   "pointed (P 1.10), %3 times homed (H 0.40), %4 times prepared (M 1.35), "
                   "%5 s waited (R): %6 min by the keystroke-level model")
            .arg(keys_)
            .arg(pointed_)
            .arg(homed_)
            .arg(prepared_)
            .arg(waited_s_, 0, 'f', 1)
            .arg(seconds() / 60.0, 0, 'f', 1);
    }

  private:
    void to_keyboard() {
        be_in_front();
        homed_ += on_mouse_ ? 1 : 0;
        on_mouse_ = false;
    }
    void to_mouse() {
        homed_ += on_mouse_ ? 0 : 1;
        on_mouse_ = true;
    }

    QWidget* window_;
    bool on_mouse_ = true;
    int keys_ = 0;
    int pointed_ = 0;
    int homed_ = 0;
    int prepared_ = 0;
    double waited_s_ = 0.0;
    int step_ = 0;
};

} // namespace rodway
