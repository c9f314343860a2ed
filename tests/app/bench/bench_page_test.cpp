#include "app/bench/bench_page.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QFile>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTabBar>
#include <QTest>
#include <map>

#include "app/bench/stage_rail.h"
#include "app/work/build_state.h"
#include "core/files/set_up_file.h"
#include "db/build_store.h"
#include "db/set_up_store.h"
#include "tests/app/bench/bench_shop.h"

namespace rodway {
namespace {

using tests::bench_now;
using tests::BenchPageTest;

TEST_F(BenchPageTest, WhatHoldsABuildUpStandsInWordsTheGravestFirst) {
    const std::int64_t build = shop_.add_build("Halden");
    const std::int64_t block = shop_.add_stage(build, 1, "Short block");
    shop_.add_step(block, 1, "Main caps torqued", true);
    const std::int64_t top = shop_.add_stage(build, 2, "Top end");
    const std::int64_t heads = shop_.add_step(top, 1, "Heads on");
    shop_.add_step(top, 2, "Rods in");
    shop_.add_step(shop_.add_stage(build, 3, "Hand-off"), 1, "Book given away");
    // Put down against the order in which they count.
    shop_.add_question(build, "Extra: seats hardened");
    shop_.add_cure(build, "Front cover", "2026-11-30T11:00:00Z", 24 * 60, heads);
    shop_.add_part(build, "Head gasket", "2026-11-20", heads);
    shop_.add_build("Quiet");
    open();

    const QString part = "Part: Head gasket, overdue, was promised for 20 November 2026";
    ASSERT_EQ(names(), QStringList({"Halden", "Quiet"}));
    const QStringList all = whole(0, BenchModel::held_column).split('\n');
    ASSERT_EQ(all.size(), 3) << all.join('|').toStdString();
    EXPECT_EQ(all[0], part);
    EXPECT_TRUE(all[1].startsWith("Cures: Front cover, until 1 December 2026"))
        << all[1].toStdString();
    EXPECT_EQ(all[2], "The customer is asked: Extra: seats hardened");
    EXPECT_EQ(cell(0, BenchModel::held_column), part + "\nand 2 more");
    EXPECT_EQ(cell(1, BenchModel::held_column), "Nothing");
    // Heads on waits for its gasket; the step behind it waits for what dries at it.
    EXPECT_TRUE(cell(0, BenchModel::next_column).startsWith("Wait. Part: Head gasket"));
    EXPECT_TRUE(cell(0, BenchModel::next_column).endsWith("\nTop end"));

    const Rail rail =
        model().index(0, BenchModel::rail_column).data(BenchModel::rail_role).value<Rail>();
    ASSERT_EQ(rail.size(), 3);
    EXPECT_TRUE(rail[0].passed);
    EXPECT_FALSE(rail[0].in_hand || rail[0].held);
    EXPECT_FALSE(rail[1].passed);
    EXPECT_TRUE(rail[1].in_hand && rail[1].held);
    EXPECT_FALSE(rail[2].in_hand || rail[2].held);
    EXPECT_EQ(whole(0, BenchModel::rail_column),
              "1 of 3 stages passed; Top end is in hand; held up: Top end");
}

// What the Bench says must be what is worked out from the records, for an engine as well.
TEST_F(BenchPageTest, AFailedClearanceStandsBeforeEverythingElse) {
    QFile demo(QStringLiteral(RODWAY_RESOURCES "/demo/v8-port-tubes.json"));
    ASSERT_TRUE(demo.open(QIODevice::ReadOnly));
    const auto fields = read_set_up_file(demo.readAll().toStdString());
    ASSERT_TRUE(fields.ok());
    const std::int64_t build = shop_.add_build("Halden");
    const std::int64_t mocked = shop_.add_stage(build, 1, "Heads");
    shop_.add_part(build, "Head gasket", "2026-12-20", shop_.add_step(mocked, 1, "Heads on"));
    const std::int64_t walk = shop_.add_stage(build, 2, "Pushrod clearance");
    Gate gate;
    gate.stage_id = walk;
    gate.ordinal = 1;
    gate.title = "Every rod clears";
    gate.needs = "clearance";
    shop_.add(gate);
    shop_.add_step(walk, 1, "Clearance walked");
    shop_.apply_now(edits_to_create(
        SetUpRecord{shop_.next_id(RecordKind::set_up), build, "as measured", *fields}));
    open();

    auto shop = ShopFile::open(shop_.path());
    ASSERT_TRUE(shop.ok());
    ShopFile other = std::move(shop).value();
    const auto state = load_build_state(other, build, Moment::at(bench_now));
    ASSERT_TRUE(state.ok());
    std::size_t troubles = 0;
    for (const Hold& hold : state->holds.holds) {
        troubles += hold.kind != HoldKind::step_open ? 1U : 0U;
    }
    ASSERT_GE(troubles, 2U);
    // By stage the part comes first.
    EXPECT_EQ(state->holds.holds.front().kind, HoldKind::part_awaited);
    const BenchStanding* standing = model().standing(0);
    ASSERT_NE(standing, nullptr);
    ASSERT_EQ(standing->held_by.size(), troubles);
    for (std::size_t at = 1; at < troubles; ++at) {
        EXPECT_LE(standing->held_by[at - 1].kind, standing->held_by[at].kind);
    }
    EXPECT_LE(standing->held_by.front().kind, HoldKind::check_failed);
    EXPECT_EQ(standing->held_by.front().place.where, BenchPlace::Where::valvetrain);
    EXPECT_EQ(standing->held_by.back().place.where, BenchPlace::Where::parts);
}

TEST_F(BenchPageTest, OnlyTheRowsThatAreSeenAreWorkedOut) {
    shop_.add_builds(300);
    open();
    ASSERT_EQ(model().rowCount(), 300);
    const auto [first, last] = table().rows_seen();
    EXPECT_EQ(first, 0);
    const int seen = last - first + 1;
    ASSERT_GT(seen, 3);
    ASSERT_LT(seen, 30);
    EXPECT_EQ(page_->standings().worked_out(), seen);
    EXPECT_EQ(model().pages_read(), 2); // the first rows, and those just below
    EXPECT_NE(model().standing(0), nullptr);
    EXPECT_EQ(cell(last, BenchModel::held_column), "Nothing");
    EXPECT_EQ(cell(last + 1, BenchModel::held_column), QString::fromUtf8("…"));

    table().scrollToBottom();
    settle();
    const auto [low, lowest] = table().rows_seen();
    EXPECT_EQ(lowest, 299);
    const int both = seen + lowest - low + 1;
    EXPECT_EQ(page_->standings().worked_out(), both);
    EXPECT_EQ(cell(lowest, BenchModel::held_column), "Nothing");
    EXPECT_LE(model().pages_read(), 4);

    // What is known isn't worked out again, and a changed build is.
    table().scrollToTop();
    settle();
    EXPECT_EQ(page_->standings().worked_out(), both);
    const Build third = model().row(2)->build;
    Build renamed = third;
    renamed.name = "Renamed";
    ASSERT_TRUE(session_->act(edits_to_change(third, renamed), "rename").ok());
    settle();
    EXPECT_EQ(page_->standings().worked_out(), both + 1);
    EXPECT_EQ(names()[2], "Renamed");
}

TEST_F(BenchPageTest, RowsAreTheSameWhicheverPageTheyStandOn) {
    shop_.add_builds(300);
    open();
    const auto builds = load_builds(session_->shop());
    ASSERT_TRUE(builds.ok());
    QStringList expected;
    for (const Build& build : *builds) {
        expected << QString::fromStdString(build.name);
    }
    EXPECT_EQ(names(), expected); // none has a promised day: by number
}

TEST_F(BenchPageTest, EachFilterShowsTheBuildsItSays) {
    const std::int64_t part = shop_.add_build("Needs a part");
    const std::int64_t cure = shop_.add_build("Dries");
    const std::int64_t dry = shop_.add_build("Is dry");
    const std::int64_t asked = shop_.add_build("Was asked");
    const std::int64_t away = shop_.add_build("Long gone");
    shop_.add_part(part, "Cam", "2026-12-24");
    shop_.add_cure(cure, "Sump", "2026-11-30T11:30:00Z", 60);
    shop_.add_cure(dry, "Sump", "2026-11-30T10:30:00Z", 60);
    shop_.add_question(asked, "Extra");
    const auto before = shop_.build(away);
    Build after = before;
    after.archived = "2026-11-01T10:00:00Z";
    shop_.change(before, after);
    open();
    auto* tabs = child<QTabBar>("bench_filter");
    std::map<QString, QStringList> shown;
    for (int tab = 0; tab < tabs->count(); ++tab) {
        tabs->setCurrentIndex(tab);
        shown[tabs->tabText(tab)] = names();
    }
    EXPECT_EQ(shown["In hand"], QStringList({"Needs a part", "Dries", "Is dry", "Was asked"}));
    EXPECT_EQ(shown["Wait for a part"], QStringList("Needs a part"));
    EXPECT_EQ(shown["Wait for a cure"], QStringList("Dries"));
    EXPECT_EQ(shown["Wait for the customer"], QStringList("Was asked"));
    EXPECT_EQ(shown["Put away"], QStringList("Long gone"));
    EXPECT_EQ(shown.size(), 5U);
    EXPECT_TRUE(cell(0, BenchModel::held_column).startsWith("Put away on 1 November 2026"));
}

TEST_F(BenchPageTest, WordsNarrowTheListAndTypingInTheTableTypesThem) {
    shop_.add_build("Halden V8");
    shop_.add_build("Merrow six");
    shop_.add_build("Corran four");
    open();
    auto* words = child<QLineEdit>("bench_text");
    page_->activateWindow();
    table().setFocus();
    QTest::keyClick(&table(), Qt::Key_M);
    EXPECT_EQ(words->text(), "m");
    QTest::keyClicks(words, "ERROW owner");
    ASSERT_TRUE(QTest::qWaitFor([&] { return model().rowCount() == 1; }, patience_ms));
    EXPECT_EQ(names(), QStringList("Merrow six"));
    words->setText("nowhere");
    QTest::keyClick(words, Qt::Key_Return);
    EXPECT_EQ(model().rowCount(), 0);
    EXPECT_TRUE(child<QPushButton>("bench_empty_action")->isVisible());
    child<QPushButton>("bench_empty_action")->click();
    ASSERT_TRUE(QTest::qWaitFor([&] { return model().rowCount() == 3; }, patience_ms));
}

TEST_F(BenchPageTest, TheOrderIsByPromisedDayOrByTheNewestChange) {
    const std::int64_t never = shop_.add_build("Never promised");
    shop_.add_build("Late", "2026-11-27");
    shop_.add_build("Soon", "2026-12-02");
    const std::int64_t far = shop_.add_build("Far", "2027-02-01");
    shop_.add_stage(never, 1, "Teardown");
    open();
    EXPECT_EQ(names(), QStringList({"Late", "Soon", "Far", "Never promised"}));
    EXPECT_EQ(cell(0, BenchModel::promised_column), "27 November 2026\nlate by 3 days");
    EXPECT_TRUE(model().index(0, BenchModel::promised_column).data(BenchModel::late_role).toBool());
    EXPECT_EQ(cell(1, BenchModel::promised_column), "2 December 2026\nin 2 days");
    EXPECT_FALSE(
        model().index(1, BenchModel::promised_column).data(BenchModel::late_role).toBool());
    EXPECT_EQ(cell(2, BenchModel::promised_column), "1 February 2027");
    EXPECT_EQ(cell(3, BenchModel::promised_column), "");
    child<QComboBox>("bench_order")->setCurrentIndex(1);
    EXPECT_EQ(names(), QStringList({"Never promised", "Far", "Soon", "Late"}));
    const Build before = shop_.build(far);
    Build after = before;
    after.note = "changed";
    ASSERT_TRUE(session_->act(edits_to_change(before, after), "note").ok());
    EXPECT_EQ(names().front(), "Far");
}

TEST_F(BenchPageTest, AnotherConnectionsWriteShowsByItself) {
    const std::int64_t build = shop_.add_build("Halden");
    const std::int64_t stage = shop_.add_stage(build, 1, "Heads");
    const std::int64_t step = shop_.add_step(stage, 1, "Heads on");
    open();
    EXPECT_EQ(cell(0, BenchModel::next_column), "Heads on\nHeads");
    EXPECT_EQ(cell(0, BenchModel::held_column), "Nothing");
    shop_.add_part(build, "Head gasket", "2026-11-20", step);
    shop_.add_build("Merrow");
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return cell(0, BenchModel::held_column).startsWith("Part: Head gasket"); },
        patience_ms));
    EXPECT_EQ(names(), QStringList({"Halden", "Merrow"}));
}

TEST_F(BenchPageTest, ABuildIsPutAwayTakenBackAndUndone) {
    shop_.add_build("Halden");
    const std::int64_t merrow = shop_.add_build("Merrow");
    shop_.add_build("Corran");
    open();
    table().selectRow(1);
    QSignalSpy said(page_.get(), &PlacePage::said);
    auto* button = child<QPushButton>("bench_put_away");
    button->click();
    EXPECT_EQ(names(), QStringList({"Halden", "Corran"}));
    EXPECT_EQ(page_->selected_build(), 3); // the one that came up
    EXPECT_TRUE(load_build(session_->shop(), merrow)->archived.has_value());
    ASSERT_EQ(said.count(), 1);
    EXPECT_TRUE(said[0][0].toString().contains("Merrow"));
    EXPECT_EQ(session_->undo_text(), "put Merrow away");
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(names(), QStringList({"Halden", "Merrow", "Corran"}));
    EXPECT_FALSE(load_build(session_->shop(), merrow)->archived.has_value());
    ASSERT_TRUE(session_->redo().ok());

    child<QTabBar>("bench_filter")->setCurrentIndex(4);
    ASSERT_EQ(names(), QStringList("Merrow"));
    EXPECT_TRUE(button->text().remove('&').startsWith("Take it back"));
    button->click();
    EXPECT_EQ(names(), QStringList());
    EXPECT_FALSE(load_build(session_->shop(), merrow)->archived.has_value());
}

TEST_F(BenchPageTest, EnterOpensTheBuildAndAClickOnWhatHoldsItUpGoesThere) {
    shop_.add_build("Quiet");
    const std::int64_t build = shop_.add_build("Halden");
    const std::int64_t part = shop_.add_part(build, "Head gasket", "2026-11-20");
    shop_.add_question(build, "Extra");
    open();
    QSignalSpy opened(page_.get(), &BenchPage::build_opened);
    QSignalSpy gone(page_.get(), &BenchPage::place_wanted);
    table().setFocus();
    QTest::keyClick(&table(), Qt::Key_Down);
    QTest::keyClick(&table(), Qt::Key_Return);
    ASSERT_EQ(opened.count(), 1);
    EXPECT_EQ(opened[0][0].toLongLong(), build);

    const QRect held = table().visualRect(model().index(1, BenchModel::held_column));
    // Whether the first wraps, as in a wide font, or not: the second is below the middle by then.
    const int line_px = table().fontMetrics().height();
    const auto click_line = [&](int line) {
        const int y = held.center().y() + (line == 0 ? -line_px / 2 : 3 * line_px / 4);
        QTest::mouseClick(table().viewport(), Qt::LeftButton, {}, {held.left() + 20, y});
    };
    click_line(0);
    ASSERT_TRUE(gone.wait(patience_ms));
    EXPECT_EQ(gone[0][0].toLongLong(), build);
    const auto first = gone[0][1].value<BenchPlace>();
    EXPECT_EQ(first.where, BenchPlace::Where::parts);
    EXPECT_EQ(first.record, (RecordRef{RecordKind::part, part}));
    click_line(1);
    ASSERT_TRUE(gone.wait(patience_ms));
    EXPECT_EQ(gone[1][1].value<BenchPlace>().where, BenchPlace::Where::account);

    // Two clicks open the build, and lead nowhere else.
    click_line(0);
    QTest::mouseDClick(table().viewport(), Qt::LeftButton, {},
                       {held.left() + 20, held.center().y() - line_px / 2});
    EXPECT_EQ(opened.count(), 2);
    QTest::qWait(QApplication::doubleClickInterval() + 200);
    EXPECT_EQ(gone.count(), 2);
}

TEST_F(BenchPageTest, FromTheKeyboardAMenuLeadsToEachThingThatHoldsItUp) {
    const std::int64_t build = shop_.add_build("Halden");
    shop_.add_part(build, "Gasket & seal", "2026-11-20");
    shop_.add_part(build, "Cam", "2026-12-20");
    shop_.add_question(build, "Extra");
    open();
    QSignalSpy gone(page_.get(), &BenchPage::place_wanted);
    QTest::keyClick(child<QPushButton>("bench_held"), Qt::Key_Space);
    auto* menu = child<QMenu>("bench_held_menu");
    ASSERT_NE(menu, nullptr);
    ASSERT_EQ(menu->actions().size(), 3);
    EXPECT_TRUE(menu->actions()[0]->text().contains("Gasket && seal"));
    QTest::keyClick(menu, Qt::Key_Down);
    QTest::keyClick(menu, Qt::Key_Down);
    QTest::keyClick(menu, Qt::Key_Down);
    QTest::keyClick(menu, Qt::Key_Return);
    ASSERT_EQ(gone.count(), 1);
    EXPECT_EQ(gone[0][1].value<BenchPlace>().where, BenchPlace::Where::account);
}

TEST_F(BenchPageTest, AnEmptyBenchSaysWhatBelongsThereAndOffersANewBuild) {
    open();
    QSignalSpy wanted(page_.get(), &BenchPage::new_build_wanted);
    EXPECT_FALSE(table().isVisible());
    auto* action = child<QPushButton>("bench_empty_action");
    ASSERT_TRUE(action->isVisible());
    EXPECT_TRUE(action->text().startsWith("New build"));
    action->click();
    EXPECT_EQ(wanted.count(), 1);
    EXPECT_EQ(page_->selected_build(), 0);
    shop_.add_build("Halden");
    ASSERT_TRUE(QTest::qWaitFor([&] { return table().isVisible(); }, patience_ms));
    EXPECT_EQ(names(), QStringList("Halden"));
}

TEST_F(BenchPageTest, EveryControlHasANameForThoseWhoCannotSeeIt) {
    shop_.add_build("Halden");
    open();
    int controls = 0;
    for (QWidget* widget : page_->findChildren<QWidget*>()) {
        if (widget->focusPolicy() == Qt::NoFocus || !widget->isVisible() ||
            qobject_cast<QScrollBar*>(widget) != nullptr) {
            continue;
        }
        ++controls;
        QAccessibleInterface* told = QAccessible::queryAccessibleInterface(widget);
        ASSERT_NE(told, nullptr);
        EXPECT_FALSE(told->text(QAccessible::Name).isEmpty())
            << widget->metaObject()->className() << " " << widget->objectName().toStdString();
    }
    EXPECT_GE(controls, 8);
}

// As long as nobody has worked out how it stands, and of a build that is put away.
TEST(StageRail, WithoutAGateAStageIsPassedByItsSteps) {
    BenchRow row;
    row.rail = {{1, "Enquiry", 2, 2, false, false},
                {2, "Heads", 3, 3, false, true},
                {3, "Rods", 3, 3, true, true},
                {4, "Oil", 3, 2, false, false}};
    const Rail rail = rail_of(row);
    ASSERT_EQ(rail.size(), 4);
    EXPECT_TRUE(rail[0].passed);
    EXPECT_FALSE(rail[1].passed);
    EXPECT_TRUE(rail[2].passed);
    EXPECT_FALSE(rail[3].passed);
    EXPECT_TRUE(rail[3].in_hand);
}

} // namespace
} // namespace rodway
