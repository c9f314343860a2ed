#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QApplication>
#include <QComboBox>
#include <QCoreApplication>
#include <QDir>
#include <QLabel>
#include <QListWidget>
#include <QPalette>
#include <QScrollArea>
#include <QScrollBar>
#include <QSettings>
#include <QTabBar>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>

#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"
#include "app/window/place_page.h"
#include "db/build_records.h"
#include "tests/app/window/long_names.h"

namespace rodway {
namespace {

constexpr int patience_ms = 20000;

QString name_of(const QWidget& widget) {
    QString text = widget.accessibleName();
    if (const auto* label = qobject_cast<const QLabel*>(&widget)) text = label->text().left(40);
    if (const auto* button = qobject_cast<const QAbstractButton*>(&widget)) text = button->text();
    return QString("%1 “%2” “%3”").arg(widget.metaObject()->className(), widget.objectName(), text);
}

/// Whether text is cut off: it has less room than it takes at its narrowest.
bool is_cut(const QWidget& widget) {
    if (const auto* label = qobject_cast<const QLabel*>(&widget)) {
        if (label->text().isEmpty()) return false;
        if (!label->wordWrap()) return label->width() < label->sizeHint().width();
        return label->height() < label->heightForWidth(label->width());
    }
    if (qobject_cast<const QAbstractButton*>(&widget) || qobject_cast<const QComboBox*>(&widget)) {
        return widget.width() < widget.minimumSizeHint().width() ||
               widget.height() < widget.minimumSizeHint().height();
    }
    return false;
}

/// The part of a widget that isn't scrolled away or covered by the edge of what it stands in is
/// all of it, unless it stands in something that scrolls.
bool sticks_out(const QWidget& widget) {
    const QWidget* parent = widget.parentWidget();
    if (parent == nullptr || parent->objectName() == "qt_scrollarea_viewport") return false;
    return !parent->rect().contains(widget.geometry());
}

bool is_qt_inside(const QWidget& widget) {
    return widget.objectName().startsWith("qt_") || qobject_cast<const QScrollBar*>(&widget) ||
           qobject_cast<const QTabBar*>(widget.parentWidget()) || // its arrows
           qobject_cast<const QAbstractItemView*>(widget.parentWidget()) || widget.isWindow();
}

/// What is wrong with the room that things have; empty if nothing is.
QStringList ill_fitting(const QWidget& window) {
    QStringList found;
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible() || is_qt_inside(*widget)) continue;
        if (is_cut(*widget)) found << "cut off: " + name_of(*widget);
        if (sticks_out(*widget)) found << "sticks out: " + name_of(*widget);
        for (const QObject* other : widget->parentWidget()->children()) {
            const auto* sibling = qobject_cast<const QWidget*>(other);
            if (sibling == nullptr || sibling <= widget || !sibling->isVisible() ||
                is_qt_inside(*sibling)) {
                continue;
            }
            if (sibling->geometry().intersects(widget->geometry())) {
                found << "overlap: " + name_of(*widget) + " and " + name_of(*sibling);
            }
        }
    }
    return found;
}

QPalette dark_palette() {
    QPalette dark;
    dark.setColor(QPalette::Window, QColor(45, 45, 48));
    dark.setColor(QPalette::WindowText, Qt::white);
    dark.setColor(QPalette::Base, QColor(30, 30, 32));
    dark.setColor(QPalette::AlternateBase, QColor(45, 45, 48));
    dark.setColor(QPalette::ToolTipBase, QColor(45, 45, 48));
    dark.setColor(QPalette::ToolTipText, Qt::white);
    dark.setColor(QPalette::PlaceholderText, QColor(160, 160, 160));
    dark.setColor(QPalette::Text, Qt::white);
    dark.setColor(QPalette::Button, QColor(60, 60, 64));
    dark.setColor(QPalette::ButtonText, Qt::white);
    dark.setColor(QPalette::Mid, QColor(110, 110, 114));
    dark.setColor(QPalette::Link, QColor(120, 180, 255));
    dark.setColor(QPalette::Highlight, QColor(42, 110, 190));
    dark.setColor(QPalette::HighlightedText, Qt::white);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        dark.setColor(QPalette::Disabled, role, QColor(125, 125, 130));
    }
    return dark;
}

/// Where pictures of every place go, if somebody wants to look at them.
void save_picture(QWidget& window, const QString& name) {
    const QString folder = qEnvironmentVariable("RODWAY_SHOTS");
    if (folder.isEmpty()) return;
    QDir().mkpath(folder);
    ASSERT_TRUE(window.grab().save(folder + '/' + QString(name).replace(' ', '_') + ".png"));
}

/// What is wrong with how a place opens: its heading must stand at its top, in sight and whole,
/// with nothing scrolled away above it. Empty if nothing is.
QString ill_opened(const MainWindow& window) {
    const PlacePage* place = window.place_in_front();
    if (place == nullptr) return "no place";
    constexpr int most_above_px = 40;
    for (const QLabel* label : place->findChildren<QLabel*>("title")) {
        if (!label->isVisible() || label->text().isEmpty()) continue;
        const QWidget* view = place->parentWidget();
        const QRect at(label->mapTo(view, QPoint(0, 0)), label->size());
        const bool in_sight = view->rect().contains(at.topLeft()) && at.bottom() < view->height();
        if (!in_sight) return "heading out of sight: " + name_of(*label);
        if (at.top() > most_above_px) return "heading not at the top: " + name_of(*label);
        return {};
    }
    return "no heading";
}

enum class Content { demo, long_names, empty };

/// A size of the window in the units in which widgets are laid out. A screen of 1280 by 800 at
/// 150 % has 853 by 533 of them.
struct Room {
    const char* name;
    QSize size;
    bool enlarged;
};
constexpr Room rooms[] = {{"1280x800", {1280, 800}, false},
                          {"1920x1080", {1920, 1080}, false},
                          {"1280x800 at 150", {853, 533}, true},
                          {"1920x1080 at 150", {1280, 720}, true}};

class PlacesFit : public ::testing::TestWithParam<std::tuple<Content, bool>> {
  protected:
    void SetUp() override {
        QSettings().clear();
        if (std::get<bool>(GetParam())) QApplication::setPalette(dark_palette());
        window_ = std::make_unique<MainWindow>();
        window_->show();
        const auto content = std::get<Content>(GetParam());
        const QString path = folder_.filePath("shop.rodway");
        ASSERT_TRUE(window_->make_shop(path, content != Content::empty));
        if (content == Content::long_names) give_long_names(*window_->session());
        if (content == Content::empty) return;
        window_->open_build(1);
        ASSERT_TRUE(QTest::qWaitFor(
            [&] { return window_->valvetrain().model().engine() != nullptr; }, patience_ms));
    }
    void TearDown() override {
        window_.reset();
        QApplication::setPalette(light_);
    }

    void look_at(const QString& what, const Room& room) {
        for (int i = 0; i < 10; ++i) QCoreApplication::processEvents();
        EXPECT_EQ(window_->size(), room.size) << what.toStdString();
        EXPECT_EQ(ill_fitting(*window_).join("\n").toStdString(), "") << what.toStdString();
        const bool long_names = std::get<Content>(GetParam()) == Content::long_names;
        if (!room.enlarged && !long_names) {
            for (const QScrollArea* area : window_->findChildren<QScrollArea*>()) {
                EXPECT_FALSE(area->isVisible() && area->horizontalScrollBar()->isVisible())
                    << what.toStdString() << ", " << name_of(*area->widget()).toStdString();
                // Within a place a part may be long; the place itself fits.
                const bool place = qobject_cast<const PlacePage*>(area->widget()) != nullptr;
                EXPECT_FALSE(place && area->isVisible() && area->verticalScrollBar()->isVisible())
                    << what.toStdString() << " is higher than " << room.name;
            }
        }
        static constexpr const char* contents[] = {"demo", "long names", "empty"};
        save_picture(*window_,
                     QString("%1 %2 %3 %4")
                         .arg(room.name, std::get<bool>(GetParam()) ? "dark" : "light",
                              contents[static_cast<int>(std::get<Content>(GetParam()))], what));
    }

    /// What a place leads to by a list of sections, or by buttons of panels.
    void look_at_panels(const QString& place, const Room& room) {
        for (auto* list : window_->findChildren<QListWidget*>("shop_sections")) {
            for (int row = 1; list->isVisible() && row < list->count(); ++row) {
                list->setCurrentRow(row);
                look_at(place + ", " + list->item(row)->text(), room);
            }
            list->setCurrentRow(0);
        }
        QToolButton* first = nullptr;
        for (auto* panel : window_->findChildren<QToolButton*>("panel_button")) {
            if (!panel->isVisible()) continue;
            first = first == nullptr ? panel : first;
            panel->click();
            look_at(place + ", " + QString(panel->text()).remove('&'), room);
        }
        if (first != nullptr) first->click();
    }

    QTemporaryDir folder_;
    const QPalette light_ = QApplication::palette();
    std::unique_ptr<MainWindow> window_;
};

TEST_P(PlacesFit, WithNothingCutOffOverlappingOrOutOfReach) {
    for (const Room& room : rooms) {
        SCOPED_TRACE(room.name);
        window_->resize(room.size);
        for (QToolButton* place : window_->findChildren<QToolButton*>("place")) {
            if (!place->isEnabled()) continue;
            place->click();
            const QString name = QString(place->text()).replace('\n', ' ');
            look_at(name, room);
            EXPECT_EQ(ill_opened(*window_).toStdString(), "") << name.toStdString();
            look_at_panels(name, room);
            for (QTabBar* tabs : window_->findChildren<QTabBar*>()) {
                for (int tab = 1; tabs->isVisible() && tab < tabs->count(); ++tab) {
                    tabs->setCurrentIndex(tab);
                    look_at(name + ", " + tabs->tabText(tab), room);
                }
                tabs->setCurrentIndex(0);
            }
        }
    }
}

/// How light the emptiest part of the picture of a place is, from 0 to 255.
int ground_of(QWidget& window) {
    const QImage picture = window.grab().toImage();
    return qGray(picture.pixel(picture.width() - 60, picture.height() / 2));
}

TEST(Theme, IsTakenOverByAnOpenWindow) {
    QSettings().clear();
    QTemporaryDir folder;
    MainWindow window;
    window.show();
    ASSERT_TRUE(window.make_shop(folder.filePath("shop.rodway"), false));
    const QPalette light = QApplication::palette();
    ASSERT_GT(ground_of(window), 200);
    QApplication::setPalette(dark_palette());
    QCoreApplication::processEvents();
    EXPECT_LT(ground_of(window), 80);
    QApplication::setPalette(light);
    QCoreApplication::processEvents();
    EXPECT_GT(ground_of(window), 200);
}

INSTANTIATE_TEST_SUITE_P(Places, PlacesFit,
                         ::testing::Combine(::testing::Values(Content::demo, Content::long_names,
                                                              Content::empty),
                                            ::testing::Bool()));

} // namespace
} // namespace rodway
