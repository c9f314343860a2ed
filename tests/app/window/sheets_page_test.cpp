#include "app/sheets/sheets_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>

#include "app/work/own_sheet.h"
#include "tests/app/sheets/open_sheets.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;

class SheetsPageTest : public OpenSheets {};

TEST_F(SheetsPageTest, ARowOfSixteenIsTypedWithoutTheMouseAtOneKeyAPositionBesideItsCharacters) {
    page().open_kind("springs");
    ASSERT_EQ(table().rowCount(), 16);
    table().setCurrentCell(0, 2);
    QString keys;
    std::vector<std::string> wanted;
    int characters = 0;
    for (int valve = 0; valve < 16; ++valve) {
        const QString height = QStringLiteral("1.8%1").arg(10 + valve);
        keys += height + '\n';
        characters += static_cast<int>(height.size());
        wanted.push_back(std::to_string(valve / 2 + 1) + (valve % 2 == 0 ? "I " : "E ") +
                         height.toStdString());
    }
    press(keys);
    EXPECT_EQ(pressed_, characters + 16);
    EXPECT_EQ(kept("spring_installed_height"), wanted);
    EXPECT_EQ(text_at(15, 2), "1.825");
    // The last one's Enter went on to the next quantity.
    EXPECT_EQ(table().currentRow(), 0);
    EXPECT_EQ(table().currentColumn(), 3);
}

TEST_F(SheetsPageTest, ClearanceFollowsAndIsJudgedAndUndoTakesTheReadingBack) {
    page().open_kind("main_bearings");
    table().setCurrentCell(1, 1);
    press("2.4480\n");
    table().setCurrentCell(1, 2);
    press("2.4505\n");
    EXPECT_TRUE(text_at(1, 3).contains("0.0025")) << text_at(1, 3).toStdString();
    EXPECT_FALSE(table().item(1, 3)->icon().isNull());
    EXPECT_TRUE(text_at(0, 3).isEmpty());
    ASSERT_TRUE(window_->session()->undo().ok());
    EXPECT_TRUE(text_at(1, 3).isEmpty());
    EXPECT_EQ(text_at(1, 1), "2.4480");
}

TEST_F(SheetsPageTest, TheVerdictAppearsAsItIsTyped) {
    page().open_kind("main_bearings");
    table().setCurrentCell(0, 1);
    press("2.4480\n");
    table().setCurrentCell(0, 3);
    auto* state = page().findChild<QLabel*>("line_state");
    press(".0025");
    EXPECT_TRUE(state->text().contains("Within the limit")) << state->text().toStdString();
    press("\n");
    table().setCurrentCell(0, 3);
    press(".0090");
    EXPECT_TRUE(state->text().contains("Outside the limit")) << state->text().toStdString();
    EXPECT_THAT(kept("main_clearance"), ElementsAre("J1 .0025"));
}

TEST_F(SheetsPageTest, WhatCannotBeKeptStaysAsTypedAndTheCursorWithIt) {
    page().open_kind("main_bearings");
    table().setCurrentCell(0, 1);
    press("wide\n");
    EXPECT_EQ(text_at(0, 1), "wide");
    EXPECT_EQ(table().currentRow(), 0);
    EXPECT_FALSE(window_->complaint().isEmpty());
    EXPECT_TRUE(kept("main_diameter").empty());
    // Wherever the cursor goes, it doesn't look like what is kept.
    table().setCurrentCell(3, 1);
    EXPECT_TRUE(table().item(0, 1)->font().strikeOut());
    EXPECT_TRUE(table().item(0, 1)->toolTip().contains("not kept"));
    EXPECT_FALSE(table().item(1, 1)->font().strikeOut());
    table().setCurrentCell(0, 1);
    press("2.4480\n");
    EXPECT_FALSE(table().item(0, 1)->font().strikeOut());
    EXPECT_THAT(kept("main_diameter"), ElementsAre("J1 2.4480"));
}

TEST_F(SheetsPageTest, ARetakeIsANewReadingThoughItFindsTheSameAndLookingAtABoxIsNone) {
    page().open_kind("main_bearings");
    table().setCurrentCell(0, 1);
    press("2.4480\n");
    table().setCurrentCell(0, 1);
    press("2.4479\n");
    // Measured once more and found the same: a stale check is fresh again by that.
    table().setCurrentCell(0, 1);
    press("2.4479\n");
    EXPECT_THAT(kept("main_diameter"), ElementsAre("J1 2.4480", "J1 2.4479", "J1 2.4479"));
    EXPECT_EQ(text_at(0, 1), "2.4479");
    EXPECT_EQ(table().currentRow(), 1);
    // Opened to be looked at, and left by Enter or Escape.
    for (const Qt::Key leave : {Qt::Key_Return, Qt::Key_Escape}) {
        table().setCurrentCell(0, 1);
        table().editItem(table().currentItem());
        QTest::keyClick(QApplication::focusWidget(), leave);
    }
    EXPECT_EQ(kept("main_diameter").size(), 3u);
}

TEST_F(SheetsPageTest, APositionThatOnlyTheBenchKnowsIsTypedBelowTheSheet) {
    page().open_kind("fasteners");
    open_place("Each bolt");
    ASSERT_EQ(table().rowCount(), 0);
    auto* another = page().findChild<QLineEdit*>("another_position");
    type_into(*another, "Head left bolt 7\n");
    ASSERT_EQ(table().rowCount(), 1);
    EXPECT_EQ(table().verticalHeaderItem(0)->text(), "head left bolt 7");
    EXPECT_EQ(table().currentColumn(), 1);
    EXPECT_TRUE(table().hasFocus());
    press("oil\n");
    EXPECT_THAT(kept("fastener_lubricant"), ElementsAre("head left bolt 7 oil"));
    type_into(*another, "roof bolt 7\n");
    EXPECT_FALSE(window_->complaint().isEmpty());
    EXPECT_EQ(another->text(), "roof bolt 7"); // what was typed stays
}

TEST_F(SheetsPageTest, WhatIsBeingTypedIsKeptWhenTheWindowCloses) {
    page().open_kind("main_bearings");
    table().setCurrentCell(0, 1);
    press("2.4480");
    EXPECT_TRUE(kept("main_diameter").empty());
    window_->close();
    EXPECT_THAT(kept("main_diameter"), ElementsAre("J1 2.4480"));
}

TEST_F(SheetsPageTest, TheOrderOfEntryIsTheOneChosen) {
    page().open_kind("springs");
    EXPECT_EQ(text_at(2, 0), "2I");
    auto* order = page().findChild<QComboBox*>();
    order->setCurrentIndex(2);
    emit order->activated(2);
    EXPECT_EQ(text_at(2, 0), "8I"); // 1-8-4-3-6-5-7-2
}

TEST_F(SheetsPageTest, AShopsOwnSheetIsTypedIntoLikeAnyOther) {
    OwnLine line;
    line.title = "Waffle height";
    line.unit = "mm";
    line.place = Place::cylinder;
    line.low = "1.0";
    line.limit_source = "the shop";
    ASSERT_TRUE(keep_own_sheet(*window_->session(), {"Waffles", {line}}).ok());
    auto* kinds = page().findChild<QListWidget*>("sheet_kinds");
    EXPECT_TRUE(kinds->item(kinds->count() - 1)->text().startsWith("Waffles"));
    page().open_kind("own_waffles");
    table().setCurrentCell(0, 1);
    press("0,8\n1,2\n");
    EXPECT_THAT(kept("own_waffles_waffle_height"), ElementsAre("1 0,8", "2 1,2"));
    EXPECT_TRUE(table().item(0, 1)->toolTip().contains("Outside the limit"));
    EXPECT_TRUE(table().item(1, 1)->toolTip().contains("Within the limit"));
}

TEST_F(SheetsPageTest, AnOwnSheetThatMakesNoSenseIsRefusedWithItsPlace) {
    OwnLine line;
    line.title = "Waffle height";
    line.unit = "psi";
    const auto unit = keep_own_sheet(*window_->session(), {"Waffles", {line}});
    ASSERT_FALSE(unit.ok());
    EXPECT_EQ(unit.error().field, "lines/1/unit");
    line.unit = "mm";
    line.low = "1";
    const auto source = keep_own_sheet(*window_->session(), {"Waffles", {line}});
    ASSERT_FALSE(source.ok());
    EXPECT_EQ(source.error().field, "lines/1/limit_source");
    EXPECT_FALSE(keep_own_sheet(*window_->session(), {"", {line}}).ok());
    EXPECT_FALSE(keep_own_sheet(*window_->session(), {"Waffles", {}}).ok());
}

TEST_F(SheetsPageTest, EveryKindOfSheetOpensAndPrintsBlankAndAsItStands) {
    auto* kinds = page().findChild<QListWidget*>("sheet_kinds");
    for (int row = 0; row < kinds->count(); ++row) {
        kinds->setCurrentRow(row);
        EXPECT_GT(table().columnCount(), 1) << page().kind();
        for (const bool blank : {true, false}) {
            const QString file = folder_.filePath("sheet.pdf");
            QFile::remove(file);
            window_->save_sheet(file, blank);
            QFile written(file);
            ASSERT_TRUE(written.open(QIODevice::ReadOnly)) << page().kind();
            EXPECT_TRUE(written.read(5).startsWith("%PDF-"));
        }
    }
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
}

} // namespace
} // namespace rodway
