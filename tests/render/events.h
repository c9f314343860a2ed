#pragma once

#include <QWidget>

namespace rodway {

/// What a person does at a widget, sent to it as Qt would.
void press(QWidget& widget, const QPoint& at, Qt::MouseButton button = Qt::LeftButton,
           Qt::KeyboardModifiers keys = {});
void drag_on(QWidget& widget, const QPoint& to, Qt::MouseButton button = Qt::LeftButton,
             Qt::KeyboardModifiers keys = {});
void release(QWidget& widget, const QPoint& at, Qt::MouseButton button = Qt::LeftButton,
             Qt::KeyboardModifiers keys = {});
void click(QWidget& widget, const QPoint& at);
void type_key(QWidget& widget, Qt::Key key, Qt::KeyboardModifiers keys = {});
void turn_wheel(QWidget& widget, const QPoint& at, int notches);

/// Lets timers and paints happen.
void wait_ms(int milliseconds);

} // namespace rodway
