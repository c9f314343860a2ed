#include "tests/render/events.h"

#include <QApplication>
#include <QEventLoop>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QTimer>
#include <QWheelEvent>

namespace rodway {
namespace {

void send_mouse(QWidget& widget, QEvent::Type type, const QPoint& at, Qt::MouseButton button,
                Qt::MouseButtons held, Qt::KeyboardModifiers keys) {
    QMouseEvent event(type, at, widget.mapToGlobal(at), button, held, keys);
    QApplication::sendEvent(&widget, &event);
}

} // namespace

void press(QWidget& widget, const QPoint& at, Qt::MouseButton button, Qt::KeyboardModifiers keys) {
    send_mouse(widget, QEvent::MouseButtonPress, at, button, button, keys);
}

void drag_on(QWidget& widget, const QPoint& to, Qt::MouseButton button,
             Qt::KeyboardModifiers keys) {
    send_mouse(widget, QEvent::MouseMove, to, Qt::NoButton, button, keys);
}

void release(QWidget& widget, const QPoint& at, Qt::MouseButton button,
             Qt::KeyboardModifiers keys) {
    send_mouse(widget, QEvent::MouseButtonRelease, at, button, Qt::NoButton, keys);
}

void click(QWidget& widget, const QPoint& at) {
    press(widget, at);
    release(widget, at);
}

void type_key(QWidget& widget, Qt::Key key, Qt::KeyboardModifiers keys) {
    for (const QEvent::Type type : {QEvent::KeyPress, QEvent::KeyRelease}) {
        QKeyEvent event(type, key, keys);
        QApplication::sendEvent(&widget, &event);
    }
}

void turn_wheel(QWidget& widget, const QPoint& at, int notches) {
    QWheelEvent event(at, widget.mapToGlobal(at), {}, {0, 120 * notches}, Qt::NoButton, {},
                      Qt::NoScrollPhase, false);
    QApplication::sendEvent(&widget, &event);
}

void wait_ms(int milliseconds) {
    QEventLoop loop;
    QTimer::singleShot(milliseconds, &loop, &QEventLoop::quit);
    loop.exec();
}

} // namespace rodway
