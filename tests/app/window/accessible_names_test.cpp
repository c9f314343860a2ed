#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QComboBox>
#include <QCoreApplication>
#include <QLineEdit>
#include <QMenuBar>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QSettings>
#include <QTabBar>
#include <QTabWidget>
#include <QTemporaryDir>
#include <QToolButton>

#include "app/window/main_window.h"

namespace rodway {
namespace {

/// What a person can act on. Scroll bars and the parts that Qt makes for itself are left out.
bool is_control(const QWidget& widget) {
    if (widget.objectName().startsWith("qt_") || qobject_cast<const QScrollBar*>(&widget) ||
        qobject_cast<const QTabWidget*>(&widget) || // its tabs are asked
        widget.metaObject() == &QScrollArea::staticMetaObject) {
        return false;
    }
    if (qobject_cast<const QLineEdit*>(&widget)) {
        // The box inside a spin box or a list that can be typed into goes by that one's name.
        return !qobject_cast<const QComboBox*>(widget.parentWidget()) &&
               !qobject_cast<const QAbstractSpinBox*>(widget.parentWidget());
    }
    return qobject_cast<const QAbstractButton*>(&widget) ||
           qobject_cast<const QComboBox*>(&widget) ||
           qobject_cast<const QAbstractItemView*>(&widget) ||
           qobject_cast<const QAbstractSlider*>(&widget) ||
           qobject_cast<const QAbstractSpinBox*>(&widget) ||
           qobject_cast<const QPlainTextEdit*>(&widget) || qobject_cast<const QTabBar*>(&widget) ||
           widget.focusPolicy() & Qt::TabFocus;
}

/// What a screen reader would call it.
QString name_of(const QWidget& widget) {
    if (!widget.accessibleName().isEmpty()) return widget.accessibleName();
    if (const auto* button = qobject_cast<const QAbstractButton*>(&widget)) return button->text();
    if (const auto* tabs = qobject_cast<const QTabBar*>(&widget)) return tabs->tabText(0);
    return {};
}

QStringList nameless(const QWidget& window) {
    QStringList found;
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
        const bool inside_a_list = qobject_cast<const QAbstractItemView*>(widget->parentWidget());
        if (!widget->isVisible() || inside_a_list || !is_control(*widget)) continue;
        if (name_of(*widget).isEmpty()) {
            found << QString("%1 “%2” in %3")
                         .arg(widget->metaObject()->className(), widget->objectName(),
                              widget->parentWidget()->metaObject()->className());
        }
    }
    return found;
}

/// Every place, every tab of each, with the demo shop and with an empty one.
TEST(AccessibleNames, EveryControlOfEveryPlaceHasOne) {
    QSettings().clear();
    QTemporaryDir folder;
    for (const bool demo : {true, false}) {
        MainWindow window;
        window.show();
        ASSERT_TRUE(window.make_shop(folder.filePath(demo ? "demo.rodway" : "new.rodway"), demo));
        if (demo) window.open_build(1);
        int places = 0;
        for (QToolButton* place : window.findChildren<QToolButton*>("place")) {
            if (!place->isEnabled()) continue;
            ++places;
            place->click();
            QCoreApplication::processEvents();
            EXPECT_EQ(nameless(window).join("\n").toStdString(), "") << place->text().toStdString();
            for (QTabBar* tabs : window.findChildren<QTabBar*>()) {
                for (int tab = 0; tabs->isVisible() && tab < tabs->count(); ++tab) {
                    tabs->setCurrentIndex(tab);
                    QCoreApplication::processEvents();
                    EXPECT_EQ(nameless(window).join("\n").toStdString(), "")
                        << place->text().toStdString() << ", " << tabs->tabText(tab).toStdString();
                }
            }
        }
        EXPECT_GE(places, demo ? 10 : 3);
        window.close();
    }
}

} // namespace
} // namespace rodway
