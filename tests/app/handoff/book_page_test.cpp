#include "app/handoff/book_page.h"

#include <QComboBox>
#include <QDir>
#include <QListWidget>
#include <QPushButton>
#include <QSpinBox>

#include "app/handoff/book_preview.h"
#include "app/work/photo_acts.h"
#include "db/attachments.h"
#include "db/history.h"
#include "db/record_fields.h"
#include "tests/app/book/book_shop.h"
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
    void wait_for_writing() {
        ASSERT_TRUE(QTest::qWaitFor([&] { return !page().is_writing(); }, 60000));
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
    wait_for_writing();
    QFile card(file);
    ASSERT_TRUE(card.open(QIODevice::ReadOnly));
    EXPECT_TRUE(card.readAll().startsWith("%PDF-"));
    page().hand_over_to(folder_.filePath("given"));
    wait_for_writing();
    // It is given as the customer wants it, but not without a word about its tight rod.
    EXPECT_EQ(window_->complaint().toStdString(),
              "Handed over all the same: Pushrods stand under the clearance asked for: 3I.");
    ASSERT_EQ(all<HandOff>().size(), 1U);
    EXPECT_TRUE(QFile::exists(folder_.filePath("given/build-book.pdf")));
    // Where it is there already, that is said and nothing is kept.
    page().hand_over_to(folder_.filePath("given"));
    wait_for_writing();
    EXPECT_NE(window_->complaint().toStdString(), "");
    EXPECT_EQ(all<HandOff>().size(), 1U);
}

/// Photos that take a while to write: one file, many records of it.
void add_photos(ShopSession& session, const QString& file, int count) {
    QImage picture(3000, 2000, QImage::Format_RGB32);
    for (int y = 0; y < picture.height(); ++y) {
        auto* line = reinterpret_cast<QRgb*>(picture.scanLine(y));
        for (int x = 0; x < picture.width(); ++x) line[x] = qRgb(x * 7, y * 5, (x + y) * 3);
    }
    ASSERT_TRUE(picture.save(file, "JPEG"));
    const auto kept = keep(session.shop(), file.toStdString());
    const auto first = new_id(session.shop(), RecordKind::photo);
    ASSERT_TRUE(kept.ok() && first.ok());
    std::vector<Edit> edits;
    for (int at = 0; at < count; ++at) {
        Photo photo;
        photo.id = *first + at;
        photo.build_id = 1;
        photo.digest = kept->digest;
        photo.file_name = kept->file_name;
        photo.in_book = true;
        photo.added_at = "2026-11-20T10:00:00Z";
        const auto more = edits_to_create(photo);
        edits.insert(edits.end(), more.begin(), more.end());
    }
    ASSERT_TRUE(session.act(edits, "photos").ok());
}

TEST_F(BookPageTest, TheWindowLivesWhileABookIsWrittenAndItCanBeStopped) {
    add_photos(session(), folder_.filePath("photo.jpg"), 60);
    wait();
    auto* stop = page().findChild<QPushButton*>("stop_work");
    ASSERT_NE(stop, nullptr);
    const QString file = folder_.filePath("book.pdf");
    page().write_book("complete", file);
    // The bar with Stop comes up while it is written, and the pages can be turned meanwhile.
    ASSERT_TRUE(QTest::qWaitFor([&] { return stop->isVisible(); }, 20000));
    ASSERT_TRUE(page().is_writing());
    page().preview().go_to(1);
    EXPECT_FALSE(page().preview().grab().isNull());
    EXPECT_TRUE(page().is_writing());
    QTest::mouseClick(stop, Qt::LeftButton);
    wait_for_writing();
    EXPECT_FALSE(QFile::exists(file));
    EXPECT_FALSE(stop->isVisible());

    const QString folder = folder_.filePath("given");
    page().hand_over_to(folder);
    ASSERT_TRUE(QTest::qWaitFor([&] { return stop->isVisible(); }, 20000));
    QTest::mouseClick(stop, Qt::LeftButton);
    wait_for_writing();
    EXPECT_FALSE(QFile::exists(folder));
    EXPECT_TRUE(all<HandOff>().empty());
    EXPECT_TRUE(
        QDir(folder_.path()).entryList({".rodway-*"}, QDir::AllEntries | QDir::Hidden).empty());

    page().write_book("complete", file);
    wait_for_writing();
    EXPECT_TRUE(QFile::exists(file)) << "not stopped, it is written";
}

TEST_F(BookPageTest, AnotherShopIsOpenedWhileABookIsWritten) {
    add_photos(session(), folder_.filePath("photo.jpg"), 60);
    wait();
    page().hand_over_to(folder_.filePath("given"));
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            return !QDir(folder_.path())
                        .entryList({".rodway-*"}, QDir::AllEntries | QDir::Hidden)
                        .empty();
        },
        20000));
    ASSERT_TRUE(window_->make_shop(folder_.filePath("other.rodway"), true));
    EXPECT_FALSE(page().is_writing());
    EXPECT_TRUE(QTest::qWaitFor(
        [&] {
            return QDir(folder_.path())
                .entryList({".rodway-*"}, QDir::AllEntries | QDir::Hidden)
                .empty();
        },
        20000));
    EXPECT_FALSE(QFile::exists(folder_.filePath("given")));
}

TEST_F(BookPageTest, TheShopsOwnTemplatesAreOfferedAndABrokenOneIsRefusedWithItsLine) {
    const QString folder = folder_.filePath("templates");
    ASSERT_TRUE(QDir().mkpath(folder));
    const auto write = [&](const QString& name, const QByteArray& text) {
        QFile file(folder + '/' + name);
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(text);
    };
    write("marine.txt", "book Boat book\nsection settings\nsection cautions\n");
    write("broken.txt", "book Broken\nsection settings\nsectoin cautions\n");
    write("picture.png", "no template");
    ASSERT_EQ(page().templates().count(), 2);
    page().use_templates_in(folder);
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return page().is_ready() && page().templates().count() == 4; }, 60000));
    EXPECT_EQ(page().templates().findText("picture"), -1);
    const int whole = page().preview().page_count();
    page().templates().setCurrentIndex(page().templates().findText("marine"));
    EXPECT_LT(page().preview().page_count(), whole);
    EXPECT_GT(page().preview().page_count(), 0);
    const QString file = folder_.filePath("own.pdf");
    page().write_book(page().templates().currentData().toString(), file);
    wait_for_writing();
    EXPECT_TRUE(tests::printed_by("pdfinfo", {file}).contains("Boat book"));

    page().templates().setCurrentIndex(page().templates().findText("broken"));
    EXPECT_TRUE(window_->complaint().contains("line 3")) << window_->complaint().toStdString();
    EXPECT_EQ(page().preview().page_count(), 0) << "no other book is shown in its place";
    const QString none = folder_.filePath("none.pdf");
    page().write_book(page().templates().currentData().toString(), none);
    wait_for_writing();
    EXPECT_FALSE(QFile::exists(none));

    // The folder is kept with the shop, once, and taken back like anything else.
    page().use_templates_in(folder_.path());
    page().use_templates_in(folder);
    const auto details = all<ShopDetail>(shop_wide);
    ASSERT_EQ(details.size(), 1U);
    EXPECT_EQ(details.front().content, folder.toStdString());
    undo();
    EXPECT_EQ(all<ShopDetail>(shop_wide).front().content, folder_.path().toStdString());
}

} // namespace
} // namespace rodway
