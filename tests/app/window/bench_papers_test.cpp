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
    /// The entry of a menu with this text.
    static QAction* entry(const QList<QAction*>& menu, const QString& text) {
        for (QAction* one : menu) {
            if (one->text() == text) return one;
        }
        ADD_FAILURE() << text.toStdString();
        return nullptr;
    }
    QMenu& build_menu() { return *entry(window_->menuBar()->actions(), "&Build")->menu(); }
    QMenu& papers() { return *entry(build_menu().actions(), "Papers for the benc&h")->menu(); }
    /// The letters by which its entries are chosen with the keyboard.
    static QString letters(const QMenu& menu) {
        QString all;
        for (const QAction* one : menu.actions()) {
            const auto at = one->text().indexOf('&');
            if (at >= 0) all += one->text()[at + 1].toLower();
        }
        return all;
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

TEST_F(BenchPapersTest, AreWrittenFromTheMenu) {
    const QString plan = folder_.filePath("plan.pdf");
    save_as([&] { entry(papers().actions(), "&Cylinders and valves…")->trigger(); }, plan);
    const QString text = text_of(plan);
    EXPECT_TRUE(text.contains("Firing order 1-8-4-3-6-5-7-2")) << text.toStdString();
    EXPECT_TRUE(text.contains("At full lift"));

    const QString torque = folder_.filePath("torque.pdf");
    save_as([&] { entry(papers().actions(), "&Torque order…")->trigger(); }, torque);
    EXPECT_TRUE(text_of(torque).contains("Torque order"));

    const QString buy = folder_.filePath("buy.pdf");
    save_as([&] { entry(papers().actions(), "To &buy, all builds…")->trigger(); }, buy);
    EXPECT_TRUE(text_of(buy).contains("Head studs")) << "of the six, which isn't in hand";
}

TEST_F(BenchPapersTest, EveryEntryOfTheMenuHasAKeyOfItsOwn) {
    for (const QMenu* menu : {&build_menu(), &papers()}) {
        const QString all = letters(*menu);
        EXPECT_EQ(QSet<QChar>(all.begin(), all.end()).size(), all.size()) << all.toStdString();
        int entries = 0;
        for (const QAction* one : menu->actions()) entries += one->isSeparator() ? 0 : 1;
        EXPECT_EQ(all.size(), entries) << all.toStdString();
    }
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
    QStringList enabled;
    for (const QAction* paper : papers().actions()) {
        if (paper->isEnabled()) enabled << paper->text();
    }
    EXPECT_EQ(enabled, QStringList{"To &buy, all builds…"});
}

} // namespace
} // namespace rodway
