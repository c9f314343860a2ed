#include <QFileDialog>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QPushButton>

#include "app/parts/parts_page.h"
#include "tests/app/book/book_shop.h"
#include "tests/app/window/place_test.h"

namespace rodway {
namespace {

class BenchPapersTest : public PlaceTest {
  protected:
    /// Opens the menu by its key and goes to the entry by its letters, as hands on a keyboard do.
    void by_keys(Qt::Key build, Qt::Key papers, Qt::Key entry) {
        QTest::keyClick(window_.get(), build, Qt::AltModifier);
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        ASSERT_NE(menu, nullptr);
        QTest::keyClick(menu, papers);
        auto* of_papers = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        ASSERT_NE(of_papers, nullptr);
        ASSERT_NE(of_papers, menu);
        QTest::keyClick(of_papers, entry);
    }
    void save_as(const std::function<void()>& open, const QString& file) {
        in_dialog<QFileDialog>(open, [&](QFileDialog& dialog) {
            auto* name = dialog.findChild<QLineEdit*>("fileNameEdit");
            ASSERT_NE(name, nullptr);
            name->setText(file);
            QMetaObject::invokeMethod(&dialog, "accept");
        });
        EXPECT_EQ(window_->complaint().toStdString(), "");
    }
    static QString text_of(const QString& pdf) {
        return tests::printed_by("pdftotext", {"-raw", pdf, "-"});
    }
};

TEST_F(BenchPapersTest, AreWrittenFromTheMenuByItsKeys) {
    const QString plan = folder_.filePath("plan.pdf");
    save_as([&] { by_keys(Qt::Key_B, Qt::Key_H, Qt::Key_C); }, plan);
    const QString text = text_of(plan);
    EXPECT_TRUE(text.contains("Firing order 1-8-4-3-6-5-7-2")) << text.toStdString();
    EXPECT_TRUE(text.contains("At full lift"));

    const QString torque = folder_.filePath("torque.pdf");
    save_as([&] { by_keys(Qt::Key_B, Qt::Key_H, Qt::Key_T); }, torque);
    EXPECT_TRUE(text_of(torque).contains("Torque order"));

    const QString buy = folder_.filePath("buy.pdf");
    save_as([&] { by_keys(Qt::Key_B, Qt::Key_H, Qt::Key_B); }, buy);
    EXPECT_TRUE(text_of(buy).contains("Head studs")) << "of the six, which isn't in hand";
}

TEST_F(BenchPapersTest, TheBuyListIsWrittenWhereItStands) {
    go_to("Parts");
    auto* print = window_->findChild<QPushButton*>("print_buy_list");
    ASSERT_NE(print, nullptr);
    const QString buy = folder_.filePath("buy.pdf");
    save_as([&] { print->click(); }, buy);
    EXPECT_TRUE(text_of(buy).contains("Head studs"));
}

TEST_F(BenchPapersTest, WithoutABuildOnlyTheShopsOwnIsOffered) {
    ASSERT_TRUE(window_->make_shop(folder_.filePath("empty.rodway"), false));
    for (const QAction* menu : window_->menuBar()->actions()) {
        if (menu->text() != "&Build") continue;
        for (const QAction* entry : menu->menu()->actions()) {
            if (entry->text() != "Papers for the benc&h") continue;
            QStringList enabled;
            for (const QAction* paper : entry->menu()->actions()) {
                if (paper->isEnabled()) enabled << paper->text();
            }
            EXPECT_EQ(enabled, QStringList{"To &buy, all builds…"});
            return;
        }
    }
    FAIL() << "no menu of papers";
}

} // namespace
} // namespace rodway
