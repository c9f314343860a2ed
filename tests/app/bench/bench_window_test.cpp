#include <gtest/gtest.h>

#include <QLabel>
#include <QListWidget>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>
#include <algorithm>
#include <stdexcept>

#include "app/account/account_page.h"
#include "app/bench/bench_page.h"
#include "app/bench/today_panel.h"
#include "app/parts/build_parts.h"
#include "app/parts/parts_page.h"
#include "app/sheets/sheets_page.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"
#include "app/work/part_acts.h"

namespace rodway {
namespace {

constexpr int patience_ms = 20000;
constexpr const char* now = "2026-11-30T12:00:00Z";

/// The Bench in the real window, on the demo shop, as of one moment.
class BenchWindowTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>([] { return std::string(now); });
        window_->show();
        ASSERT_TRUE(window_->make_shop(folder_.filePath("shop.rodway"), true));
    }
    BenchPage& bench() { return window_->bench(); }
    int row_of(const QString& name) {
        for (int row = 0; row < bench().model().rowCount(); ++row) {
            const QModelIndex cell = bench().model().index(row, BenchModel::build_column);
            if (cell.data().toString().startsWith(name)) return row;
        }
        throw std::runtime_error("no such build");
    }
    const BenchStanding& standing(const QString& name) {
        const int row = row_of(name);
        EXPECT_TRUE(
            QTest::qWaitFor([&] { return bench().model().standing(row) != nullptr; }, patience_ms));
        return *bench().model().standing(row);
    }
    /// Goes where a thing leads that holds the first demo build up.
    BenchPlace follow(HoldKind kind) {
        for (const HeldBy& held : standing("Halden V8").held_by) {
            if (held.kind == kind) {
                emit bench().place_wanted(1, held.place);
                return held.place;
            }
        }
        throw std::runtime_error("nothing of that kind holds it up");
    }
    template <typename Page>
    Page& page() {
        return *window_->findChild<Page*>();
    }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(BenchWindowTest, WhatHoldsABuildUpLeadsToItsPlace) {
    const auto part = add_part(*window_->session(), [] {
        PartRecord gasket;
        gasket.build_id = 1;
        gasket.item = "Head gasket";
        gasket.needed = "2026-11-01";
        gasket.promised = "2026-11-27";
        return gasket;
    }());
    ASSERT_TRUE(part.ok());
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            const BenchStanding& known = standing("Halden V8");
            return std::any_of(known.held_by.begin(), known.held_by.end(), [](const HeldBy& held) {
                return held.kind == HoldKind::part_awaited;
            });
        },
        patience_ms));
    ASSERT_FALSE(standing("Halden V8").held_by.empty());
    const BenchPlace sheet = standing("Halden V8").held_by.front().place;
    ASSERT_EQ(sheet.where, BenchPlace::Where::sheets);
    emit bench().place_wanted(1, sheet);
    EXPECT_TRUE(page<SheetsPage>().isVisible());
    EXPECT_EQ(page<SheetsPage>().kind(), "rod_clearance");
    window_->findChild<QToolButton*>("place")->click();
    ASSERT_TRUE(bench().isVisible());

    follow(HoldKind::part_awaited);
    EXPECT_TRUE(page<PartsPage>().isVisible());
    ASSERT_TRUE(page<PartsPage>().of_build().selected().has_value());
    EXPECT_EQ(page<PartsPage>().of_build().selected()->id, *part);

    emit bench().place_wanted(2, BenchPlace{BenchPlace::Where::valvetrain});
    EXPECT_TRUE(window_->valvetrain().isVisible());
    emit bench().place_wanted(2, BenchPlace{BenchPlace::Where::account});
    EXPECT_TRUE(page<AccountPage>().isVisible());
}

TEST_F(BenchWindowTest, TodayLeadsToItsBuildAndShowsTheBackup) {
    ASSERT_TRUE(add_part(*window_->session(),
                         [] {
                             PartRecord gasket;
                             gasket.build_id = 2;
                             gasket.item = "Head gasket";
                             gasket.needed = "2026-11-01";
                             gasket.promised = "2026-11-27";
                             return gasket;
                         }())
                    .ok());
    QListWidget& list = bench().today().list();
    const QString overdue = QStringLiteral("Part overdue, 3 days ago\nMerrow six");
    // Behind the demo shop's own part, which was promised earlier.
    ASSERT_TRUE(QTest::qWaitFor([&] { return list.count() == 2; }, patience_ms));
    EXPECT_TRUE(list.item(1)->text().startsWith(overdue)) << list.item(1)->text().toStdString();
    list.setFocus();
    list.setCurrentRow(1);
    QTest::keyClick(&list, Qt::Key_Return);
    EXPECT_TRUE(page<PartsPage>().isVisible());
    ASSERT_TRUE(page<PartsPage>().of_build().selected().has_value());
    EXPECT_EQ(page<PartsPage>().of_build().selected()->build_id, 2);
    EXPECT_EQ(page<PartsPage>().of_build().selected()->promised, "2026-11-27");
    auto* backup = bench().findChild<QLabel*>("today_backup");
    EXPECT_TRUE(QTest::qWaitFor([&] { return backup->text().startsWith("Last backup: today"); },
                                patience_ms))
        << backup->text().toStdString();
}

TEST_F(BenchWindowTest, WhatIsNotedStandsBelowAComplaintAndDoesNotPushItAway) {
    window_->complain("The disk is full.");
    emit bench().noted("Halden V8: Front cover has cured by its label.");
    EXPECT_EQ(window_->complaint(),
              "The disk is full.\nHalden V8: Front cover has cured by its label.");
    window_->say("Taken back.");
    EXPECT_TRUE(window_->complaint().isEmpty());
    emit bench().noted("Halden V8: Sump has cured by its label.");
    EXPECT_EQ(window_->complaint(), "Halden V8: Sump has cured by its label.");
}

} // namespace
} // namespace rodway
