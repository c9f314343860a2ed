#include "app/shop/rescue_dialog.h"

#include <gtest/gtest.h>

#include <QLabel>
#include <QLineEdit>
#include <QTest>

namespace rodway {
namespace {

TEST(RescueDialog, EnterInABoxBeginsAndDoesNotClose) {
    RescueDialog dialog({});
    dialog.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&dialog));
    auto* damaged = dialog.findChild<QLineEdit*>("damaged_file");
    damaged->setFocus();
    QTest::keyClicks(damaged, "/nowhere/at all");
    QTest::keyClick(damaged, Qt::Key_Return);
    EXPECT_TRUE(dialog.isVisible());
    EXPECT_FALSE(dialog.findChild<QLabel*>("trouble")->text().isEmpty()) << "one file is missing";
}

} // namespace
} // namespace rodway
