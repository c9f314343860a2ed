#pragma once

#include <gtest/gtest.h>

#include <QApplication>
#include <QLineEdit>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>
#include <QToolButton>
#include <functional>
#include <memory>

#include "app/window/main_window.h"
#include "db/build_records.h"

namespace rodway {

/// The real window on a demo shop, its first build open at one of its places.
class PlaceTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(folder_.filePath("shop.rodway"), true));
        window_->open_build(1);
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
    }
    void go_to(const QString& place) {
        for (QToolButton* button : window_->findChildren<QToolButton*>("place")) {
            if (button->text() == place) {
                button->click();
                return;
            }
        }
        FAIL() << place.toStdString();
    }
    ShopSession& session() { return *window_->session(); }
    template <typename Record>
    std::vector<Record> all(std::int64_t build_id = 1) {
        const auto records = load_records<Record>(session().shop(), build_id);
        EXPECT_TRUE(records.ok());
        return records ? *records : std::vector<Record>();
    }
    void undo() { ASSERT_TRUE(session().undo().ok()); }
    void redo() { ASSERT_TRUE(session().redo().ok()); }

    /// Runs what opens a dialog, and `work` in it as soon as it is there. Whatever `work` leaves
    /// open is closed without keeping.
    template <typename Dialog>
    void in_dialog(const std::function<void()>& open, const std::function<void(Dialog&)>& work) {
        bool seen = false;
        QTimer::singleShot(0, window_.get(), [&] {
            auto* dialog = qobject_cast<Dialog*>(QApplication::activeModalWidget());
            ASSERT_NE(dialog, nullptr);
            seen = true;
            work(*dialog);
            if (dialog->isVisible()) {
                dialog->reject();
            }
        });
        open();
        EXPECT_TRUE(seen);
    }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

/// Types into the box of a field, in place of what stands there, key by key.
inline void type(QWidget& in, const char* field, const QString& text) {
    auto* edit = in.findChild<QLineEdit*>(field);
    if (edit == nullptr) {
        edit = in.findChild<QWidget*>(field)->findChild<QLineEdit*>();
    }
    ASSERT_NE(edit, nullptr) << field;
    edit->setFocus();
    edit->selectAll();
    QTest::keyClick(edit, Qt::Key_Delete);
    QTest::keyClicks(edit, text);
}

/// What nobody means as a number, a day or money, and what breaks programs that trust what is
/// typed.
inline QStringList awkward_texts() {
    return {QStringLiteral("x"),
            QStringLiteral("-999999999999999999999999"),
            QStringLiteral("1e308"),
            QStringLiteral("NaN"),
            QStringLiteral("12 psi"),
            QStringLiteral("'; DROP TABLE parts; --"),
            QStringLiteral("%1 %n %s"),
            QStringLiteral("<b>bold</b>&amp;"),
            QStringLiteral("Part\tCost\nBolt\t12\nNut\t3"),
            QString(5000, QChar('9')),
            QString(QChar(0)) + "a",
            QString::fromUtf8("\xf0\x9f\x94\xa9 \xd8\xa7\xd9\x84\xd8\xb9"),
            QString(QChar(0xD800)),
            QStringLiteral("2026-02-30"),
            QStringLiteral("0000-00-00"),
            QStringLiteral("\u202e12")};
}

} // namespace rodway
