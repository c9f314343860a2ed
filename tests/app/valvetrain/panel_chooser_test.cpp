#include "app/valvetrain/panel_chooser.h"

#include <QSet>

#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

QPalette dark() {
    QPalette palette(QColor(62, 66, 70), QColor(40, 42, 45));
    palette.setColor(QPalette::Base, QColor(28, 30, 32));
    palette.setColor(QPalette::Text, QColor(235, 235, 235));
    palette.setColor(QPalette::WindowText, QColor(235, 235, 235));
    palette.setColor(QPalette::ButtonText, QColor(235, 235, 235));
    palette.setColor(QPalette::PlaceholderText, QColor(150, 150, 150));
    return palette;
}

class PanelChooserTest : public ValvetrainTest {
  protected:
    PanelChooserTest() {
        if (qEnvironmentVariableIsSet("RODWAY_DARK")) {
            QApplication::setPalette(dark());
        }
    }
    ~PanelChooserTest() override { QApplication::setPalette(light_); }
    const QPalette light_ = QApplication::palette();

    static QStringList names() {
        return {"Numbers",          "Curve",        "Down the tube", "Causes",    "Variants",
                "Readings and fit", "Barring over", "Spread",        "In motion", "Hot and cold"};
    }
};

TEST_F(PanelChooserTest, WhicheverAPersonHadLastIsInFrontNextTime) {
    EXPECT_EQ(page().panels().shown(), "numbers");
    open_panel("Causes");
    EXPECT_EQ(page().panels().shown(), "causes");
    window_->session()->set_who("KL");
    page().take(window_->session(), 1);
    EXPECT_EQ(page().panels().shown(), "numbers") << "somebody else's choice";
    open_panel("Barring over");
    MainWindow second;
    QSettings().setValue("shop/who", "KL");
    ASSERT_TRUE(second.open_shop(folder_.filePath("shop.rodway")));
    second.open_build(1);
    EXPECT_EQ(second.valvetrain().panels().shown(), "barring");
}

TEST_F(PanelChooserTest, KeysReachEveryPanel) {
    auto buttons = page().findChildren<QToolButton*>("panel_button");
    ASSERT_EQ(buttons.size(), names().size());
    buttons.front()->setFocus();
    QSet<QString> seen{page().panels().shown()};
    // Arrow keys walk them, four in a row, and show each.
    for (const Qt::Key key :
         {Qt::Key_Right, Qt::Key_Right, Qt::Key_Right, Qt::Key_Down, Qt::Key_Left, Qt::Key_Left,
          Qt::Key_Left, Qt::Key_Down, Qt::Key_Right}) {
        auto* in_hand = qobject_cast<QToolButton*>(QApplication::focusWidget());
        ASSERT_NE(in_hand, nullptr);
        QTest::keyClick(in_hand, key);
        seen << page().panels().shown();
    }
    EXPECT_EQ(seen.size(), names().size());
}

/// Words that don't fit their label, and buttons that don't fit their text.
QStringList cut_off(QWidget& page) {
    QStringList found;
    for (const QLabel* label : page.findChildren<QLabel*>()) {
        if (!label->isVisible() || label->text().isEmpty() || label->visibleRegion().isEmpty()) {
            continue;
        }
        const bool wraps = label->wordWrap();
        const bool fits = wraps ? label->heightForWidth(label->width()) <= label->height() + 1
                                : label->sizeHint().width() <= label->width() + 1;
        if (!fits) {
            found << QString("%1: “%2”").arg(label->objectName(), label->text().left(60));
        }
    }
    for (const QAbstractButton* button : page.findChildren<QAbstractButton*>()) {
        const int words =
            button->fontMetrics().horizontalAdvance(QString(button->text()).remove('&'));
        if (button->isVisible() && button->objectName() != "qt_spinbox_lineedit" &&
            words > button->width()) {
            found << button->text();
        }
    }
    return found;
}

// At the sizes of a small and a large screen. With RODWAY_SHOTS=folder a picture of each, to be
// looked at; with RODWAY_DARK too, dark ones.
TEST_F(PanelChooserTest, NothingIsCutOffInAnyPanel) {
    const bool looked_at = qEnvironmentVariableIsSet("RODWAY_SHOTS");
    const auto look = [&](const QString& name) {
        QTest::qWait(looked_at ? 700 : 60); // for what is worked out beside the window
        EXPECT_EQ(cut_off(page()).join("\n").toStdString(), "") << name.toStdString();
        keep_picture(name);
    };
    for (const QSize size : {QSize(1280, 800), QSize(1920, 1080)}) {
        window_->resize(size);
        const QString of = QString("_%1").arg(size.width());
        for (const QString& name : names()) {
            open_panel(name);
            look(name + of);
        }
        open_panel("Barring over");
        auto& task = child<QComboBox>("barring_task");
        for (int at = 0; at < task.count(); ++at) {
            task.setCurrentIndex(at);
            look(task.currentText().replace('/', '-') + of);
        }
        task.setCurrentIndex(0);
        open_panel("Curve");
        child<QComboBox>("curve_which").setCurrentText("All valves");
        look("All curves" + of);
        child<QComboBox>("curve_which").setCurrentText("This valve");
    }
}

// An inline six and a flat four: one bank with a flange or none, other trains, no doubt stated.
TEST_F(PanelChooserTest, TheOtherDemoEnginesFillEveryPanelToo) {
    for (const qint64 build : {2, 3}) {
        window_->open_build(build);
        go_to("Valvetrain");
        ASSERT_TRUE(QTest::qWaitFor(
            [&] { return !model().busy() && model().selected_line() != nullptr; }, patience_ms));
        for (const QString& name : names()) {
            open_panel(name);
            QTest::qWait(60);
            EXPECT_EQ(cut_off(page()).join("\n").toStdString(), "") << name.toStdString() << build;
            keep_picture(QString("%1_build_%2").arg(name).arg(build));
        }
        EXPECT_GT(child<QTableWidget>("causes").rowCount(), 5);
        EXPECT_EQ(child<QTableWidget>("variant_valves").rowCount(),
                  static_cast<int>(model().lines().size()));
        EXPECT_GT(child<QTableWidget>("barring").rowCount(), 5);
    }
}

} // namespace
} // namespace rodway
