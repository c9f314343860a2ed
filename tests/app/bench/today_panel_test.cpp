#include "app/bench/today_panel.h"

#include <gtest/gtest.h>

#include <QElapsedTimer>
#include <QLabel>
#include <QListWidget>
#include <QSignalSpy>
#include <QTest>

#include "app/bench/bench_standing.h"
#include "app/work/running_clock.h"
#include "app/work/shop_day.h"
#include "core/build/utc_time.h"
#include "tests/app/bench/bench_shop.h"

namespace rodway {
namespace {

using tests::bench_now;

class TodayPanelTest : public tests::BenchPageTest {
  protected:
    QListWidget& list() { return page_->today().list(); }
    QStringList lines() {
        QStringList lines;
        for (int row = 0; row < list().count(); ++row) {
            lines << list().item(row)->text();
        }
        return lines;
    }
    bool wait_for_lines(int count) {
        return QTest::qWaitFor([&] { return list().count() == count; }, patience_ms);
    }
};

TEST_F(TodayPanelTest, ShowsWhatIsDueInItsOrderAndLeadsToIt) {
    const std::int64_t late = shop_.add_build("Late", "2026-11-29");
    const std::int64_t near = shop_.add_build("Near", "2026-12-07");
    shop_.add_build("Far", "2026-12-08");
    const std::int64_t overdue = shop_.add_part(near, "Cam", "2026-11-27");
    shop_.add_part(late, "Gasket", "2026-11-30");
    shop_.add_part(late, "Bolts", "2026-12-01");
    OpenItem item;
    item.build_id = late;
    item.title = "Retorque the manifold";
    item.due = "2026-11-28";
    item.opened_by = "KL";
    item.opened_at = bench_now;
    shop_.add(item);
    open();
    ASSERT_TRUE(wait_for_lines(5)) << lines().join('|').toStdString();
    const QString dot = QString::fromUtf8(" · ");
    EXPECT_EQ(lines(),
              QStringList({"Promised to the customer, late, yesterday\nLate",
                           "Promised to the customer, in 7 days\nNear",
                           "Part overdue, 3 days ago\nNear" + dot + "Cam",
                           "Part due, today\nLate" + dot + "Gasket",
                           "Open item due, 2 days ago\nLate" + dot + "Retorque the manifold"}));
    QSignalSpy gone(page_.get(), &BenchPage::place_wanted);
    list().setFocus();
    list().setCurrentRow(2);
    QTest::keyClick(&list(), Qt::Key_Return);
    ASSERT_EQ(gone.count(), 1);
    EXPECT_EQ(gone[0][0].toLongLong(), near);
    EXPECT_EQ(gone[0][1].value<BenchPlace>().where, BenchPlace::Where::parts);
    EXPECT_EQ(gone[0][1].value<BenchPlace>().record, (RecordRef{RecordKind::part, overdue}));
    list().setCurrentRow(0);
    QTest::keyClick(&list(), Qt::Key_Return);
    EXPECT_EQ(gone[1][0].toLongLong(), late);
    EXPECT_EQ(gone[1][1].value<BenchPlace>().where, BenchPlace::Where::build);
}

// The clock runs on from four seconds before the end of the cure; nothing is written meanwhile.
TEST_F(TodayPanelTest, ACureThatEndsIsToldOnceAndHoldsNothingUpAnyMore) {
    const std::int64_t build = shop_.add_build("Halden");
    const std::int64_t stage = shop_.add_stage(build, 1, "Top end");
    const std::int64_t step = shop_.add_step(stage, 1, "Cover on");
    shop_.add_cure(build, "Front cover", "2026-11-30T11:00:04Z", 60, step);
    shop_.add_cure(build, "Sump", "2026-11-30T08:00:00Z", 60); // long since: not told
    shop_.add_cure(build, "Valley", "2026-11-30T11:30:00Z", 60);
    QElapsedTimer gone; // the clock stands until this is started
    open([&gone] {
        return gone.isValid() ? utc_text(*utc_seconds(bench_now) + gone.elapsed() / 1000)
                              : std::string(bench_now);
    });
    QSignalSpy noted(page_.get(), &BenchPage::noted);
    ASSERT_TRUE(wait_for_lines(3));
    EXPECT_TRUE(whole(0, BenchModel::held_column).contains("Front cover"));
    gone.start();
    ASSERT_TRUE(noted.wait(patience_ms));
    EXPECT_GE(gone.elapsed(), 4000);
    EXPECT_EQ(noted[0][0].toString(), "Halden: Front cover has cured by its label.");
    settle();
    EXPECT_FALSE(whole(0, BenchModel::held_column).contains("Front cover"));
    EXPECT_TRUE(whole(0, BenchModel::held_column).contains("Valley"));
    EXPECT_TRUE(lines().join('|').contains("Fully cured, since"));
    shop_.add_build("Another");
    ASSERT_TRUE(QTest::qWaitFor([&] { return model().rowCount() == 2; }, patience_ms));
    settle();
    EXPECT_EQ(noted.count(), 1);
}

TEST_F(TodayPanelTest, AnotherConnectionsCureShowsByItself) {
    const std::int64_t build = shop_.add_build("Halden");
    open();
    EXPECT_EQ(list().count(), 0);
    shop_.add_cure(build, "Front cover", "2026-11-30T11:00:00Z", 120);
    ASSERT_TRUE(wait_for_lines(1));
    EXPECT_TRUE(lines()[0].startsWith("Fully cured, from"));
    EXPECT_TRUE(lines()[0].endsWith("Front cover"));
}

TEST_F(TodayPanelTest, ShowsTheAgeOfTheBackupThatItIsTold) {
    open();
    page_->show_backup("Last backup: today 14:05");
    EXPECT_EQ(child<QLabel>("today_backup")->text(), "Last backup: today 14:05");
}

Cure cure_of(std::int64_t id, const char* applied_at, std::optional<int> handling,
             std::optional<int> full) {
    Cure cure;
    cure.id = id;
    cure.applied_at = applied_at;
    cure.handling_minutes = handling;
    cure.full_minutes = full;
    return cure;
}

TEST(TodayList, ACureIsToldInTheSpanInWhichItsFullTimeLies) {
    TodayList list;
    list.now_utc = "2026-11-30T12:00:00Z";
    list.cures = {
        cure_of(1, "2026-11-30T11:00:00Z", 10, 60), cure_of(2, "2026-11-30T11:00:01Z", 10, 60),
        cure_of(3, "2026-11-30T10:00:00Z", 10, 60), cure_of(4, "2026-11-30T11:50:00Z", 10, {})};
    const auto ids = [&](const char* before) {
        std::vector<std::int64_t> told;
        for (const Cure& cure : cured_since(list, before)) told.push_back(cure.id);
        return told;
    };
    EXPECT_EQ(ids("2026-11-30T11:59:59Z"), std::vector<std::int64_t>{1});
    EXPECT_EQ(ids("2026-11-30T12:00:00Z"), std::vector<std::int64_t>{});
    EXPECT_EQ(ids("2026-11-30T10:59:59Z"), (std::vector<std::int64_t>{1, 3}));
    list.cures[0].ended = "2026-11-30T11:59:00Z";
    EXPECT_EQ(ids("2026-11-30T11:58:00Z"), std::vector<std::int64_t>{});
}

TEST(RunningClock, BeginsWhereItIsSetAndRunsOn) {
    const Clock clock = clock_from("2026-02-28T23:59:59Z");
    EXPECT_EQ(clock(), "2026-02-28T23:59:59Z");
    EXPECT_TRUE(QTest::qWaitFor([&] { return clock() >= "2026-03-01T00:00:00Z"; }, 5000));
    EXPECT_LT(clock(), "2026-03-01T00:00:10Z");
}

TEST(TodayList, TheNextChangeIsTheNearestTimeOfACureOrTheEndOfTheDay) {
    const std::string now = "2026-11-30T12:00:00Z";
    const std::vector<Cure> both{cure_of(1, "2026-11-30T11:00:00Z", 61, 90),
                                 cure_of(2, "2026-11-30T11:00:00Z", 30, 62)};
    EXPECT_EQ(next_change(both, now), "2026-11-30T12:01:00Z");
    EXPECT_EQ(next_change(both, "2026-11-30T12:01:00Z"), "2026-11-30T12:02:00Z");
    EXPECT_EQ(next_change(both, "2026-11-30T12:02:00Z"), "2026-11-30T12:30:00Z");
    const std::string midnight = next_change({}, now);
    EXPECT_EQ(shop_day(midnight).begins_utc, midnight);
    EXPECT_GT(midnight, now);
    EXPECT_LE(*seconds_between(now, midnight), 25 * 3600);
    EXPECT_EQ(next_change({cure_of(1, "2026-11-30T11:00:00Z", {}, 60 * 48)}, now), midnight);
}

} // namespace
} // namespace rodway
