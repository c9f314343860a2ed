#include "app/history/history_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSettings>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTest>
#include <QTreeWidget>
#include <algorithm>

#include "app/history/undo_panel.h"
#include "app/sheets/sheets_page.h"
#include "app/window/main_window.h"
#include "app/words/act_words.h"
#include "db/build_store.h"
#include "db/stage_store.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Pair;
using ::testing::UnorderedElementsAre;

Act act_of(std::int64_t number, std::optional<std::int64_t> undoes = {}) {
    Act act;
    act.number = number;
    act.undoes = undoes;
    return act;
}

TEST(TakenBackByTest, AnUndoneUndoLeavesItsActInForce) {
    // 2 takes 1 back, 3 takes 2 back: 1 is in force again, until 5.
    EXPECT_THAT(taken_back_by({act_of(1), act_of(2, 1), act_of(3, 2)}), ElementsAre(Pair(2, 3)));
    EXPECT_THAT(taken_back_by({act_of(5, 3), act_of(1), act_of(3, 2), act_of(2, 1), act_of(4)}),
                ElementsAre(Pair(1, 2), Pair(3, 5)));
    EXPECT_TRUE(taken_back_by({act_of(1), act_of(4)}).empty());
}

TEST(ActSummaryTest, WhatWasMadeIsNamedManyAreCountedAndAChangeSaysFromWhatToWhat) {
    Act act;
    act.edits = edits_to_create(Stage{7, 1, 1, "Bottom end", std::nullopt});
    for (int step = 0; step < 3; ++step) {
        const auto more =
            edits_to_create(Step{20 + step, 7, step + 1, "Step", std::nullopt, std::nullopt});
        act.edits.insert(act.edits.end(), more.begin(), more.end());
    }
    EXPECT_EQ(words::act_summary(act, {}), "new stage “Bottom end”; new: step, 3 of them");
    act.edits = {{{RecordKind::part, 4}, "received", std::nullopt, "2026-11-02"}};
    const RecordTexts now{{{RecordKind::part, 4}, {{"exists", "1"}, {"item", "Rod bolts"}}}};
    EXPECT_EQ(words::act_summary(act, now), "part “Rod bolts”: received, nothing → “2026-11-02”");
    act.undoes = 12;
    EXPECT_TRUE(words::act_summary(act, now).startsWith("took back act 12: part “Rod bolts”"));
}

class HistoryPageTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        QSettings().setValue("shop/who", "BK");
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(folder_.filePath("shop.rodway"), true));
        window_->open_build(1);
        window_->go_to_history();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
    }
    HistoryPage& page() { return window_->history_page(); }
    QTableWidget* acts() { return page().findChild<QTableWidget*>("acts"); }
    void rename(const char* name) {
        const auto before = load_build(window_->session()->shop(), 1);
        Build after = *before;
        after.name = name;
        ASSERT_TRUE(window_->session()
                        ->act(edits_to_change(*before, after), QString("name “%1”").arg(name))
                        .ok());
    }
    std::string name_now() { return load_build(window_->session()->shop(), 1)->name; }
    template <typename Widget>
    Widget* child(const char* name) {
        return page().findChild<Widget*>(name);
    }
    static int children_of(QTreeWidget& tree, const QString& kind) {
        for (int at = 0; at < tree.topLevelItemCount(); ++at) {
            if (tree.topLevelItem(at)->text(0) == kind) return tree.topLevelItem(at)->childCount();
        }
        return 0;
    }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(HistoryPageTest, ActsStandNewestFirstWithWhoAndWhatAndAMistakeTakenBackStaysInView) {
    rename("Wrong name");
    ASSERT_TRUE(window_->session()->undo().ok());
    ASSERT_GE(acts()->rowCount(), 3);
    EXPECT_THAT(acts()->item(0, 2)->text().toStdString(), HasSubstr("took back"));
    EXPECT_EQ(acts()->item(1, 1)->text(), "BK");
    EXPECT_THAT(acts()->item(1, 2)->text().toStdString(), HasSubstr("Wrong name"));
    EXPECT_THAT(acts()->item(1, 3)->text().toStdString(), HasSubstr("taken back by"));
    EXPECT_TRUE(acts()->item(1, 2)->font().strikeOut());
    EXPECT_FALSE(acts()->item(2, 2)->font().strikeOut());
    ASSERT_TRUE(window_->session()->redo().ok());
    // In force again: the renaming isn't marked, the undo is.
    EXPECT_EQ(acts()->item(2, 3)->text(), "");
    EXPECT_THAT(acts()->item(1, 3)->text().toStdString(), HasSubstr("taken back by"));
}

TEST_F(HistoryPageTest, TheFilterTakesEveryWordFromWhoWhenAndWhat) {
    rename("Quillon special");
    const int all = acts()->rowCount();
    child<QLineEdit>("history_filter")->setText("quillon bk");
    EXPECT_EQ(acts()->rowCount(), 1);
    child<QLineEdit>("history_filter")->setText("quillon mh");
    EXPECT_EQ(acts()->rowCount(), 0);
    child<QLineEdit>("history_filter")->setText("2026-11-04 ticked");
    EXPECT_EQ(acts()->rowCount(), 1);
    child<QLineEdit>("history_filter")->setText("%1 * ' <b> \\");
    EXPECT_EQ(acts()->rowCount(), 0);
    child<QLineEdit>("history_filter")->clear();
    EXPECT_EQ(acts()->rowCount(), all);
}

TEST_F(HistoryPageTest, TheRecordStandsAsItWasOnADay) {
    int ticked_now = 0;
    for (const StageWithSteps& stage : *stages_with_steps(window_->session()->shop(), 1)) {
        ticked_now += static_cast<int>(std::count_if(stage.steps.begin(), stage.steps.end(),
                                                     [](const Step& s) { return s.ticked_by; }));
    }
    ASSERT_GT(ticked_now, 12);
    auto* tree = child<QTreeWidget>("record_then");
    const auto ticked_on = [&](const QString& day) {
        page().show_as_of(day);
        int ticked = 0;
        for (int at = 0; at < tree->topLevelItemCount(); ++at) {
            QTreeWidgetItem* kind = tree->topLevelItem(at);
            if (kind->text(0) != "step") continue;
            for (int which = 0; which < kind->childCount(); ++which) {
                QTreeWidgetItem* step = kind->child(which);
                step->setExpanded(true);
                for (int field = 0; field < step->childCount(); ++field) {
                    ticked += step->child(field)->text(0) == "ticked by" ? 1 : 0;
                }
            }
        }
        return ticked;
    };
    EXPECT_EQ(ticked_on("2030-01-01"), ticked_now);
    EXPECT_GT(children_of(*tree, "step"), ticked_now);
    const auto rename_at = [&](const char* name, const char* when) {
        const auto before = load_build(window_->session()->shop(), 1);
        Build after = *before;
        after.name = name;
        ASSERT_TRUE(
            apply(window_->session()->shop(), edits_to_change(*before, after), "BK", when).ok());
    };
    rename_at("In January", "2031-01-10T10:00:00Z");
    rename_at("In February", "2031-02-10T10:00:00Z");
    const auto name_on = [&](const QString& day) {
        page().show_as_of(day);
        return tree->topLevelItem(0)->child(0)->text(0);
    };
    EXPECT_EQ(name_on("2030-12-31"), "Halden V8");
    EXPECT_EQ(name_on("2031-1-20"), "In January");
    EXPECT_EQ(name_on("2031-02-20"), "In February");
    page().show_as_of("1999-01-01");
    EXPECT_EQ(tree->topLevelItemCount(), 0);
    EXPECT_THAT(child<QLabel>("record_state")->text().toStdString(),
                HasSubstr("nothing of it yet"));
    for (const char* wrong : {"", "3/1/2026", "2026-13-01", "-5", "tomorrow"}) {
        page().show_as_of(wrong);
        EXPECT_EQ(child<QLineEdit>("as_of_day")->text(), wrong);
        EXPECT_THAT(child<QLabel>("record_state")->text().toStdString(), HasSubstr("2026-03-01"));
    }
}

TEST_F(HistoryPageTest, AnActsOwnMomentShowsTheRecordBeforeWhatCameAfter) {
    rename("Second name");
    rename("Third name");
    acts()->setCurrentCell(1, 2);
    for (QPushButton* button : page().findChildren<QPushButton*>()) {
        if (button->text().contains("as it stood then")) button->click();
    }
    auto* tree = child<QTreeWidget>("record_then");
    ASSERT_GT(tree->topLevelItemCount(), 0);
    EXPECT_EQ(tree->topLevelItem(0)->child(0)->text(0), "Second name");
}

TEST_F(HistoryPageTest, ChoosingAnActInTheUndoListMeansAllAboveItToo) {
    const std::string at_first = name_now();
    rename("One");
    rename("Two");
    rename("Three");
    auto* list = child<QListWidget>("undo_list");
    ASSERT_EQ(list->count(), 3);
    EXPECT_TRUE(list->item(0)->text().contains("Three"));
    list->setCurrentRow(1);
    EXPECT_EQ(list->selectedItems().size(), 2);
    child<QPushButton>("undo_list_button")->click();
    EXPECT_EQ(name_now(), "One");
    auto* again = child<QListWidget>("redo_list");
    ASSERT_EQ(again->count(), 2);
    EXPECT_TRUE(again->item(0)->text().contains("Two"));
    again->setCurrentRow(0);
    child<QPushButton>("redo_list_button")->click();
    EXPECT_EQ(name_now(), "Two");
    EXPECT_EQ(page().undo_panel().take(99, false), 2);
    EXPECT_EQ(name_now(), at_first);
}

TEST_F(HistoryPageTest, TakingBackStopsAtWhatSomebodyElseHasChangedSince) {
    rename("Mine");
    const auto before = load_build(window_->session()->shop(), 1);
    Build after = *before;
    after.name = "Theirs";
    ASSERT_TRUE(apply(window_->session()->shop(), edits_to_change(*before, after), "XX",
                      "2026-11-30T10:00:00Z")
                    .ok());
    EXPECT_EQ(page().undo_panel().take(1, false), 0);
    EXPECT_EQ(name_now(), "Theirs");
    EXPECT_FALSE(window_->complaint().isEmpty());
}

TEST_F(HistoryPageTest, EnterGoesToWhereTheActWasDone) {
    child<QLineEdit>("history_filter")->setText("3I clearance");
    ASSERT_GE(acts()->rowCount(), 1);
    acts()->setFocus();
    emit acts()->itemActivated(acts()->item(0, 2));
    EXPECT_EQ(window_->place_in_front(), &window_->sheets());
}

TEST_F(HistoryPageTest, TheShopsOwnRecordsHaveTheirHistoryToo) {
    child<QComboBox>("history_scope")->setCurrentIndex(1);
    ASSERT_EQ(acts()->rowCount(), 1); // the demo shop's people
    child<QLineEdit>("history_filter")->setText("Kern");
    EXPECT_EQ(acts()->rowCount(), 0);
    EXPECT_THAT(child<QLabel>("history_state")->text().toStdString(), HasSubstr("0 of 1 acts"));
    child<QLineEdit>("history_filter")->clear();
    ASSERT_TRUE(window_->session()
                    ->create(
                        RecordKind::person,
                        [](std::int64_t id) {
                            return edits_to_create(Person{id, "Bo Kern", "BK", {}, {}, {}});
                        },
                        "person")
                    .ok());
    ASSERT_EQ(acts()->rowCount(), 2);
    EXPECT_EQ(acts()->item(0, 2)->text(), "new person “Bo Kern”");
}

} // namespace
} // namespace rodway
