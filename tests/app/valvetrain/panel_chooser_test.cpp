#include "app/valvetrain/panel_chooser.h"

#include <QDir>
#include <QHeaderView>
#include <QStyleFactory>

#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

class PanelChooserTest : public ValvetrainTest {
  protected:
    static QStringList names() {
        return {"Numbers", "Curve", "Causes", "Variants", "Readings and fit", "Barring over"};
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
    QStringList seen;
    for (int at = 0; at < buttons.size(); ++at) {
        auto* in_hand = qobject_cast<QToolButton*>(QApplication::focusWidget());
        ASSERT_NE(in_hand, nullptr);
        QTest::keyClick(in_hand, Qt::Key_Space);
        seen << page().panels().shown();
        QTest::keyClick(in_hand, Qt::Key_Tab);
    }
    EXPECT_EQ(QSet<QString>(seen.begin(), seen.end()).size(), names().size())
        << seen.join(' ').toStdString();
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

// At the sizes of a small and a large screen. With RODWAY_SHOTS=folder a picture of each, light and
// dark, to be looked at.
TEST_F(PanelChooserTest, NothingIsCutOffInAnyPanel) {
    const QString shots = qEnvironmentVariable("RODWAY_SHOTS");
    const QPalette light = QApplication::palette();
    QPalette dark(QColor(53, 53, 53), QColor(40, 42, 45));
    for (const bool is_dark : {false, true}) {
        if (is_dark && shots.isEmpty()) {
            break;
        }
        QApplication::setPalette(is_dark ? dark : light);
        for (const QSize size : {QSize(1280, 800), QSize(1920, 1080)}) {
            window_->resize(size);
            for (const QString& name : names()) {
                open_panel(name);
                QTest::qWait(shots.isEmpty() ? 60 : 900);
                EXPECT_EQ(cut_off(page()).join("\n").toStdString(), "")
                    << name.toStdString() << size.width();
                if (!shots.isEmpty()) {
                    window_->grab().save(
                        QDir(shots).filePath(QString("%1_%2_%3.png")
                                                 .arg(QString(name).replace(' ', '_'))
                                                 .arg(size.width())
                                                 .arg(is_dark ? "dark" : "light")));
                }
            }
        }
    }
    QApplication::setPalette(light);
}

} // namespace
} // namespace rodway
