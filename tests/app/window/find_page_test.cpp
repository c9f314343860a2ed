#include "app/find/find_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QSettings>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTest>

#include "app/build/build_page.h"
#include "app/find/passage_delegate.h"
#include "app/sheets/sheet_table.h"
#include "app/sheets/sheets_page.h"
#include "app/shop/shop_page.h"
#include "app/window/main_window.h"
#include "app/work/build_sheets.h"
#include "core/sheets/sheet_kinds.h"
#include "db/build_records.h"

namespace rodway {
namespace {

constexpr int patience_ms = 20000;

class FindPageTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(folder_.filePath("shop.rodway"), true));
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
    }
    FindPage& page() { return window_->find_page(); }
    QLineEdit* box() { return page().findChild<QLineEdit*>("find_box"); }
    QTableWidget* table() { return page().findChild<QTableWidget*>("found"); }
    template <typename Record>
    std::int64_t put(Record record) {
        const auto id = window_->session()->create(
            RecordShape<Record>::kind,
            [&](std::int64_t new_id) {
                record.id = new_id;
                return edits_to_create(record);
            },
            "put");
        EXPECT_TRUE(id.ok());
        return id.ok() ? *id : 0;
    }
    void find(const QString& words) {
        window_->go_to_find();
        box()->clear();
        QTest::keyClicks(box(), words);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !page().busy(); }, patience_ms));
    }
    void enter() { QTest::keyClick(box(), Qt::Key_Return); }
    PlacePage* in_front() { return window_->place_in_front(); }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(FindPageTest, AReadingIsFoundByItsPlaceAndValueAndOpensInItsBox) {
    Reading reading;
    reading.build_id = 2;
    reading.quantity = "main_clearance";
    reading.position = "J3";
    reading.text = ".00276";
    reading.unit = "in";
    reading.taken_by = "BK";
    reading.taken_at = "2026-11-20T08:00:00Z";
    put(reading);
    window_->open_build(1);
    find("00276");
    ASSERT_EQ(page().lines().size(), 1u);
    EXPECT_EQ(table()->item(0, 0)->text(), "reading");
    EXPECT_TRUE(table()->item(0, 1)->text().contains("J3"));
    EXPECT_EQ(table()->item(0, 3)->text(), "Merrow six");
    enter();
    EXPECT_EQ(in_front(), &window_->sheets());
    EXPECT_EQ(window_->sheets().kind(), sheet_of_quantity("main_clearance")->id);
    const auto spot = window_->sheets().table().spot();
    ASSERT_TRUE(spot && spot->box && spot->box->taken);
    EXPECT_EQ(spot->quantity.id, "main_clearance");
    EXPECT_EQ(spot->box->taken->reading.text, ".00276");
}

TEST_F(FindPageTest, ACustomerOpensInTheShopAndABuildAtItsOwnPage) {
    Customer customer;
    customer.name = "Zelda Quistgaard";
    put(Customer{0, "Ada Brandvoll", {}, {}, {}, {}, {}});
    const std::int64_t id = put(customer);
    find("quistg");
    ASSERT_EQ(page().lines().size(), 1u);
    EXPECT_EQ(table()->item(0, 0)->text(), "customer");
    EXPECT_EQ(table()->item(0, 3)->text(), "");
    enter();
    EXPECT_EQ(in_front(), &window_->shop_page());
    EXPECT_EQ(window_->shop_page().panel(RecordKind::customer)->current(), id);
    find("merrow");
    enter();
    EXPECT_EQ(in_front(), window_->findChild<BuildPage*>());
}

TEST_F(FindPageTest, DownInTheBoxChoosesAndTheFirstKeptsItsRank) {
    Note note;
    note.build_id = 1;
    note.text = "the halden block was decked";
    note.written_by = "BK";
    note.written_at = "2026-11-20T08:00:00Z";
    put(note);
    note.build_id = 3;
    note.text = "bolts borrowed from the halden";
    put(note);
    find("halden");
    ASSERT_EQ(page().lines().size(), 3u);
    EXPECT_EQ(page().lines()[0].kind, "build"); // its title says it
    QTest::keyClick(box(), Qt::Key_Down);
    QTest::keyClick(box(), Qt::Key_Down);
    EXPECT_TRUE(box()->hasFocus());
    const std::int64_t wanted = page().lines()[2].build_id;
    std::int64_t went_to = 0;
    QObject::connect(&page(), &FindPage::record_wanted, &page(),
                     [&](const RecordRef&, qint64 build) { went_to = build; });
    enter();
    EXPECT_EQ(went_to, wanted);
    QTest::keyClick(box(), Qt::Key_Up);
    EXPECT_EQ(table()->currentRow(), 1);
}

TEST_F(FindPageTest, EnterBeforeTheAnswerOpensWhatComes) {
    window_->go_to_find();
    QTest::keyClicks(box(), "corran");
    enter();
    EXPECT_TRUE(page().busy());
    ASSERT_TRUE(QTest::qWaitFor([&] { return in_front() == window_->findChild<BuildPage*>(); },
                                patience_ms));
}

TEST_F(FindPageTest, FindTakesTheKeysFromAnywhereAndTypingNeverWaits) {
    window_->open_build(1);
    QTest::keyClick(window_.get(), Qt::Key_F, Qt::ControlModifier);
    EXPECT_EQ(in_front(), &page());
    EXPECT_TRUE(box()->hasFocus());
    int answers = 0;
    QObject::connect(table()->model(), &QAbstractItemModel::rowsInserted, &page(),
                     [&] { ++answers; });
    QTest::keyClicks(box(), "halden");
    EXPECT_TRUE(page().busy()); // nothing was searched for while the keys came
    EXPECT_EQ(answers, 0);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !page().busy(); }, patience_ms));
    EXPECT_EQ(answers, 1);
    EXPECT_EQ(page().lines().size(), 1u);
}

TEST_F(FindPageTest, NothingTypedAndNothingFoundEachSayWhatToDo) {
    window_->go_to_find();
    auto* state = page().findChild<QLabel*>("find_state");
    EXPECT_TRUE(state->text().contains("Type"));
    find("zzzzqqq");
    EXPECT_TRUE(state->text().contains("Nothing has all of these words"));
    EXPECT_FALSE(table()->isVisible());
    enter();
    EXPECT_EQ(in_front(), &page());
}

TEST_F(FindPageTest, WhateverIsTypedIsWordsAndTheWindowLives) {
    window_->go_to_find();
    for (const QString& hostile :
         {QString("\" OR 1=1 --"), QString("halden AND NOT merrow"), QString("NEAR(a b)"),
          QString("*"), QString(400, '"'), QString("a\tb\nc"), QString(QChar(0xD800)),
          QString("<b>x"), QString("-1e308")}) {
        box()->setText(hostile);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !page().busy(); }, patience_ms));
        auto* state = page().findChild<QLabel*>("find_state");
        EXPECT_FALSE(state->text().isEmpty());
        EXPECT_FALSE(state->text().contains("damaged")) << state->text().toStdString();
    }
    find("halden");
    EXPECT_FALSE(page().lines().empty());
}

TEST(PassageLineTest, MarksStandOnTheSameLettersWhateverTheTextIsMadeOf) {
    TextPassage passage;
    passage.text = "größe\n42 über";
    passage.marks = {{8, 2}, {11, 5}}; // bytes: "42" and "über"
    passage.cut_before = true;
    const PassageLine line = passage_line(passage);
    EXPECT_EQ(line.text, QString::fromUtf8("…größe 42 über"));
    ASSERT_EQ(line.marks.size(), 4);
    EXPECT_EQ(line.text.mid(line.marks[0].toInt(), line.marks[1].toInt()), "42");
    EXPECT_EQ(line.text.mid(line.marks[2].toInt(), line.marks[3].toInt()),
              QString::fromUtf8("über"));
}

} // namespace
} // namespace rodway
