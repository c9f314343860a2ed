#include "app/handoff/book_page.h"

#include <QListWidget>
#include <QSpinBox>

#include "app/handoff/book_preview.h"
#include "app/work/photo_acts.h"
#include "tests/app/window/place_test.h"

namespace rodway {
namespace {

class BookPageTest : public PlaceTest {
  protected:
    void SetUp() override {
        PlaceTest::SetUp();
        go_to("Book");
        wait();
    }
    BookPage& page() { return window_->book_page(); }
    void wait() {
        ASSERT_TRUE(QTest::qWaitFor([&] { return page().is_ready(); }, 60000));
    }
    [[nodiscard]] int row_of(const QString& words) {
        for (int row = 0; row < page().missing().count(); ++row) {
            if (page().missing().item(row)->text().contains(words)) return row;
        }
        return -1;
    }
    void enter(int row) {
        page().missing().setFocus();
        page().missing().setCurrentRow(row);
        QTest::keyClick(&page().missing(), Qt::Key_Return);
    }
    [[nodiscard]] QString place_in_front() {
        for (QToolButton* button : window_->findChildren<QToolButton*>("place")) {
            if (button->isChecked()) return button->text();
        }
        return {};
    }
};

TEST_F(BookPageTest, ShowsTheBooksPagesOneByOneByTheKeyboard) {
    BookPreview& preview = page().preview();
    ASSERT_GT(preview.page_count(), 10);
    preview.setFocus();
    const QImage first = preview.grab().toImage();
    QTest::keyClick(&preview, Qt::Key_PageDown);
    EXPECT_EQ(preview.page(), 1);
    EXPECT_NE(preview.grab().toImage(), first);
    EXPECT_EQ(preview.accessibleDescription(), QString("Page 2 of %1").arg(preview.page_count()));
    QTest::keyClick(&preview, Qt::Key_Home);
    QTest::keyClick(&preview, Qt::Key_PageUp);
    EXPECT_EQ(preview.page(), 0);
    QTest::keyClick(&preview, Qt::Key_End);
    EXPECT_EQ(preview.page(), preview.page_count() - 1);
    QTest::keyClick(&preview, Qt::Key_PageDown);
    EXPECT_EQ(preview.page(), preview.page_count() - 1);
}

TEST_F(BookPageTest, WhatIsMissingLeadsToWhereItIsMended) {
    const int name = row_of("builder's own name");
    const int lash = row_of("Lash");
    const int stage = row_of("Teardown");
    ASSERT_GE(name, 0);
    ASSERT_GE(lash, 0);
    ASSERT_GE(stage, 0);
    enter(lash);
    EXPECT_EQ(place_in_front(), "Sheets");
    go_to("Book");
    enter(stage);
    EXPECT_EQ(place_in_front(), "Build");
    go_to("Book");
    enter(name);
    EXPECT_EQ(place_in_front(), "Shop");
}

TEST_F(BookPageTest, APhotoTickedIsInTheBookAndCanBeTakenBack) {
    const QString file = folder_.filePath("block.png");
    QImage picture(60, 40, QImage::Format_RGB32);
    picture.fill(Qt::blue);
    ASSERT_TRUE(picture.save(file));
    ASSERT_TRUE(keep_photo(session(), {1}, file).ok());
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            return page().is_ready() && page().photos().count() == 1 &&
                   page().photos().item(0)->flags().testFlag(Qt::ItemIsUserCheckable);
        },
        60000));
    EXPECT_GE(row_of("none is chosen"), 0);
    page().photos().setFocus();
    page().photos().setCurrentRow(0);
    QTest::keyClick(&page().photos(), Qt::Key_Space);
    EXPECT_TRUE(all<Photo>().front().in_book);
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return page().is_ready() && row_of("none is chosen") < 0; }, 60000));
    undo();
    EXPECT_FALSE(all<Photo>().front().in_book);
}

TEST_F(BookPageTest, WritesTheBookAndHandsItOver) {
    const QString file = folder_.filePath("card.pdf");
    page().write_book("settings_card", file);
    QFile card(file);
    ASSERT_TRUE(card.open(QIODevice::ReadOnly));
    EXPECT_TRUE(card.readAll().startsWith("%PDF-"));
    page().hand_over_to(folder_.filePath("given"));
    EXPECT_EQ(window_->complaint().toStdString(), "");
    ASSERT_EQ(all<HandOff>().size(), 1U);
    EXPECT_TRUE(QFile::exists(folder_.filePath("given/build-book.pdf")));
    // Where it is there already, that is said and nothing is kept.
    page().hand_over_to(folder_.filePath("given"));
    EXPECT_NE(window_->complaint().toStdString(), "");
    EXPECT_EQ(all<HandOff>().size(), 1U);
}

} // namespace
} // namespace rodway
