#include "app/window/waiting_bar.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QLabel>
#include <QListWidget>
#include <QMessageBox>
#include <QPushButton>
#include <QScrollArea>
#include <QSettings>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QStatusBar>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>
#include <QToolButton>

#include "app/sheets/sheet_table.h"
#include "app/sheets/sheets_page.h"
#include "app/window/main_window.h"
#include "db/reading_store.h"
#include "db/stage_store.h"
#include "tests/app/build/step_list.h"

namespace rodway {
namespace {

constexpr int patience_ms = 20000;

/// The real window on a demo shop that another program holds.
class WaitingBarTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(folder_.filePath("shop.rodway"), true));
        window_->open_build(1);
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
        other_ = QSqlDatabase::addDatabase("QSQLITE", "holder");
        other_.setDatabaseName(folder_.filePath("shop.rodway"));
        ASSERT_TRUE(other_.open());
        ASSERT_TRUE(QSqlQuery(other_).exec("PRAGMA busy_timeout = 5000"));
        ASSERT_TRUE(QSqlQuery(other_).exec("BEGIN IMMEDIATE"));
    }
    void TearDown() override {
        window_.reset();
        other_ = QSqlDatabase();
        QSqlDatabase::removeDatabase("holder");
    }
    void release() { ASSERT_TRUE(QSqlQuery(other_).exec("ROLLBACK")); }

    QPushButton* button(const QString& beginning) const {
        for (QPushButton* found : bar().findChildren<QPushButton*>()) {
            if (found->text().startsWith(beginning)) return found;
        }
        throw std::runtime_error("no such button");
    }
    WaitingBar& bar() const { return *window_->findChild<WaitingBar*>(); }
    SheetTable& table() const { return window_->sheets().table(); }
    void go(const QString& place) const {
        for (QToolButton* found : window_->findChildren<QToolButton*>("place")) {
            if (found->text() == place) found->click();
        }
    }
    void type_reading(const std::string& text) const {
        window_->go_to_sheets();
        window_->sheets().open_kind("main_bearings");
        table().setCurrentCell(0, 1);
        table().setFocus();
        for (const char key : text) QTest::keyClick(QApplication::focusWidget(), key);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    }
    std::vector<std::string> kept() const {
        std::vector<std::string> texts;
        for (const Reading& reading : *readings(window_->session()->shop(), 1)) {
            if (reading.quantity == "main_diameter") texts.push_back(reading.text);
        }
        return texts;
    }
    /// Clicks, and answers the dialog that comes up.
    template <typename Dialog>
    static void click_and_answer(QPushButton* clicked, const std::function<void(Dialog&)>& answer) {
        bool answered = false;
        QTimer::singleShot(0, clicked, [&] {
            auto* dialog = qobject_cast<Dialog*>(QApplication::activeModalWidget());
            ASSERT_NE(dialog, nullptr);
            answer(*dialog);
            answered = true;
        });
        clicked->click();
        EXPECT_TRUE(answered);
    }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
    QSqlDatabase other_;
};

TEST_F(WaitingBarTest, AReadingThatWaitsStaysInItsBoxAndIsNotCalledKept) {
    EXPECT_FALSE(bar().isVisible());
    type_reading("2.4480");
    EXPECT_TRUE(bar().isVisible());
    EXPECT_FALSE(window_->statusBar()->currentMessage().contains("Kept"));
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
    go("Bench");
    go("Sheets");
    const QTableWidgetItem& box = *table().item(0, 1);
    EXPECT_EQ(box.text(), "2.4480");
    EXPECT_TRUE(box.toolTip().contains("Not saved yet")) << box.toolTip().toStdString();
    EXPECT_TRUE(kept().empty());
    release();
    button("Try now")->click();
    EXPECT_FALSE(bar().isVisible());
    EXPECT_THAT(kept(), ::testing::ElementsAre("2.4480"));
    EXPECT_EQ(table().item(0, 1)->text(), "2.4480");
    EXPECT_FALSE(table().item(0, 1)->toolTip().contains("Not saved yet"));
}

TEST_F(WaitingBarTest, ATickThatWaitsIsShownAndCanBeLetGo) {
    go("Build");
    window_->findChild<QListWidget*>("stage_rail")->setCurrentRow(11);
    const auto row = [&] { return step_row(*window_, "Pushrod clearance walked"); };
    const auto ticked = [&] {
        return stages_with_steps(window_->session()->shop(), 1)->at(11).steps[4].ticked_by;
    };
    const auto shows = [&](bool wanted) {
        return QTest::qWaitFor(
            [&] {
                return (row()->checkState() == Qt::Checked) == wanted &&
                       row()->text().contains("not saved yet") == wanted;
            },
            patience_ms);
    };
    press_space_on(row());
    EXPECT_TRUE(shows(true));
    EXPECT_EQ(window_->session()->waiting().size(), 1U);
    press_space_on(row());
    EXPECT_TRUE(shows(false));
    EXPECT_TRUE(window_->session()->waiting().empty());
    press_space_on(row());
    EXPECT_TRUE(shows(true));
    release();
    button("Try now")->click();
    EXPECT_TRUE(ticked().has_value());
    EXPECT_TRUE(QTest::qWaitFor(
        [&] {
            return row()->checkState() == Qt::Checked && !row()->text().contains("not saved yet");
        },
        patience_ms));
}

TEST_F(WaitingBarTest, TheListSaysWhatWasTypedAndNothingElse) {
    type_reading("2.4480");
    QString told;
    click_and_answer<QDialog>(button("Show them"), [&](QDialog& dialog) {
        for (const QLabel* label : dialog.findChildren<QLabel*>()) told += label->text() + '\n';
        dialog.reject();
    });
    EXPECT_TRUE(told.contains("Main journal, J1")) << told.toStdString();
    EXPECT_TRUE(told.contains("2.4480"));
    EXPECT_FALSE(told.contains("build id") || told.contains("set up id")) << told.toStdString();
}

TEST_F(WaitingBarTest, EnterDoesNotGiveUpButTheButtonDoesAndTheBoxIsEmptyAgain) {
    type_reading("2.4480");
    click_and_answer<QMessageBox>(button("Give up"),
                                  [](QMessageBox& box) { QTest::keyClick(&box, Qt::Key_Return); });
    EXPECT_EQ(window_->session()->waiting().size(), 1U);
    click_and_answer<QMessageBox>(button("Give up"), [](QMessageBox& box) {
        for (QAbstractButton* found : box.buttons()) {
            if (found->text().startsWith("Copy")) found->click();
        }
    });
    EXPECT_TRUE(window_->session()->waiting().empty());
    EXPECT_FALSE(bar().isVisible());
    EXPECT_TRUE(table().item(0, 1)->text().isEmpty());
    release();
    EXPECT_TRUE(kept().empty());
}

} // namespace
} // namespace rodway
