#include "app/valvetrain/work_bar.h"

#include <gtest/gtest.h>

#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <atomic>
#include <thread>

#include "app/work/newest_request.h"

namespace rodway {
namespace {

TEST(WorkBar, ShortWorkDoesntShowLongWorkDoesAndMayBeStopped) {
    QWidget window;
    WorkBar bar("Counting…", &window);
    window.show();
    bar.begin();
    QTest::qWait(50);
    EXPECT_FALSE(bar.isVisible());
    bar.end();
    QTest::qWait(500);
    EXPECT_FALSE(bar.isVisible());
    bar.begin();
    EXPECT_TRUE(QTest::qWaitFor([&] { return bar.isVisible(); }, 5000));
    QSignalSpy wanted(&bar, &WorkBar::stop_wanted);
    auto* stop = bar.findChild<QPushButton*>("stop_work");
    stop->setFocus();
    QTest::keyClick(stop, Qt::Key_Space);
    EXPECT_EQ(wanted.count(), 1);
    bar.end();
    EXPECT_FALSE(bar.isVisible());
}

// The work is told, its answer isn't delivered, and the window is answered all the while.
TEST(NewestRequest, StoppedWorkIsToldAndDeliversNothing) {
    std::atomic<bool> told = false;
    bool delivered = false;
    NewestRequest request;
    request.ask<int>(
        [&](const std::stop_token& stop) {
            while (!stop.stop_requested()) {
                std::this_thread::sleep_for(std::chrono::milliseconds(2));
            }
            told = true;
            return 1;
        },
        [&](int) { delivered = true; });
    EXPECT_TRUE(request.busy());
    QTest::qWait(30);
    request.stop();
    EXPECT_FALSE(request.busy());
    EXPECT_TRUE(QTest::qWaitFor([&] { return told.load(); }, 5000));
    QTest::qWait(50);
    EXPECT_FALSE(delivered);
    request.ask<int>([](const std::stop_token&) { return 2; }, [&](int) { delivered = true; });
    EXPECT_TRUE(QTest::qWaitFor([&] { return delivered; }, 5000));
}

} // namespace
} // namespace rodway
