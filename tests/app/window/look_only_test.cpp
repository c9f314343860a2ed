#include <gtest/gtest.h>

#include <QAction>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QListWidget>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>

#include "app/sheets/sheet_table.h"
#include "app/sheets/sheets_page.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"
#include "app/words/look_only_words.h"
#include "tests/app/plain_user.h"
#include "tests/app/build/step_list.h"

namespace rodway {
namespace {

using tests::PlainUser;
using tests::set_mode;

constexpr int patience_ms = 20000;

QByteArray bytes_of(const QString& path) {
    QFile file(path);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    return file.readAll();
}

/// The real window on a demo shop that somebody looks at who may not write it.
class LookOnlyTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        {
            MainWindow owner;
            ASSERT_TRUE(owner.make_shop(shop_, true));
            owner.close();
        }
        // Without the backup that closing made nothing lies beside it but the shop.
        QDir(folder_.filePath("shop.backups")).removeRecursively();
        before_ = bytes_of(shop_);
        beside_ = beside();
        set_mode(shop_, 0444);
        set_mode(folder_.path(), 0555);
        user_ = std::make_unique<PlainUser>();
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->open_shop(shop_)) << window_->complaint().toStdString();
        window_->open_build(1);
    }
    void TearDown() override {
        EXPECT_TRUE(window_->close()); // nothing waits, nothing is asked
        window_.reset();
        user_.reset();
        EXPECT_EQ(bytes_of(shop_), before_);
        EXPECT_EQ(beside(), beside_);
        set_mode(folder_.path(), 0755);
    }
    QStringList beside() const {
        return QDir(folder_.path())
            .entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot);
    }
    QLabel* bar() const { return window_->findChild<QLabel*>("look_only"); }
    QAction* action(const QString& beginning) const {
        for (QAction* found : window_->findChildren<QAction*>()) {
            if (found->text().remove('&').startsWith(beginning)) return found;
        }
        throw std::runtime_error("no such action");
    }

    void go(const QString& place) const {
        for (QToolButton* button : window_->findChildren<QToolButton*>("place")) {
            if (button->text() == place) button->click();
        }
    }

    QTemporaryDir folder_;
    const QString shop_ = folder_.filePath("shop.rodway");
    QByteArray before_;
    QStringList beside_;
    std::unique_ptr<PlainUser> user_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(LookOnlyTest, SaysSoAsLongAsItIsOpenAndShowsEverything) {
    EXPECT_TRUE(window_->complaint().isEmpty());
    for (const char* place : {"Bench", "Build", "Valvetrain", "Sheets"}) {
        go(place);
        EXPECT_TRUE(bar()->isVisible()) << place;
    }
    EXPECT_EQ(bar()->text(), words::look_only({LookOnly::Reason::file, false}));
    EXPECT_TRUE(bar()->text().contains("nothing can be changed"));
    EXPECT_TRUE(window_->windowTitle().contains("only to look at"));
    const ValvetrainModel& model = window_->valvetrain().model();
    EXPECT_TRUE(QTest::qWaitFor([&] { return model.lines().size() == 16; }, patience_ms));
    for (const char* writes : {"New build", "Back up now", "Import set-up", "Import lift table"}) {
        EXPECT_FALSE(action(writes)->isEnabled()) << writes;
    }
    EXPECT_TRUE(action("Export set-up")->isEnabled());
}

TEST_F(LookOnlyTest, WhatIsTypedStaysAndTheReasonIsSaid) {
    window_->go_to_sheets();
    ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
    SheetTable& table = window_->sheets().table();
    window_->sheets().open_kind("main_bearings");
    table.setCurrentCell(0, 1);
    table.setFocus();
    for (const char key : std::string("2.4480")) {
        QTest::keyClick(QApplication::focusWidget(), key);
    }
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    EXPECT_EQ(table.item(0, 1)->text(), "2.4480");
    EXPECT_EQ(table.currentRow(), 0);
    EXPECT_TRUE(window_->complaint().contains("read-only")) << window_->complaint().toStdString();
    EXPECT_TRUE(window_->session()->waiting().empty());
    EXPECT_TRUE(bar()->isVisible());
}

TEST_F(LookOnlyTest, ATickIsRefusedAndNotShownAsDone) {
    go("Build");
    window_->findChild<QListWidget*>("stage_rail")->setCurrentRow(11);
    const auto row = [&] { return step_row(*window_, "Pushrod clearance walked"); };
    ASSERT_EQ(row()->checkState(), Qt::Unchecked);
    press_space_on(row());
    EXPECT_TRUE(window_->complaint().contains("read-only")) << window_->complaint().toStdString();
    EXPECT_TRUE(QTest::qWaitFor([&] { return row()->checkState() == Qt::Unchecked; }, patience_ms));
}

TEST_F(LookOnlyTest, IsOverWithTheNextShopThatMayBeWritten) {
    QTemporaryDir mine;
    ASSERT_TRUE(window_->make_shop(mine.filePath("mine.rodway"), false));
    EXPECT_FALSE(bar()->isVisible());
    EXPECT_FALSE(window_->windowTitle().contains("only to look at"));
    EXPECT_TRUE(action("New build")->isEnabled());
    ASSERT_TRUE(window_->open_shop(shop_));
    EXPECT_TRUE(bar()->isVisible());
    EXPECT_FALSE(action("New build")->isEnabled());
}

} // namespace
} // namespace rodway
