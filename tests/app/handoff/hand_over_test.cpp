#include "app/work/hand_over.h"

#include <QDir>

#include "db/attachments.h"
#include "db/history.h"
#include "tests/app/book/book_shop.h"

namespace rodway {
namespace {

using tests::printed_by;

class HandOverTest : public tests::BookShop {
  protected:
    [[nodiscard]] HandOverWish wish() const {
        return {{"Ada Brandvold", "Lash after 500 miles", "With thanks"},
                "A. Brandvold",
                *find_book_template("short"),
                QPageSize::A4};
    }
    HandedOver over(const QString& folder) {
        const auto done = hand_over(session(), build_, wish(), folder);
        EXPECT_TRUE(done.ok() && done->has_value());
        return **done;
    }
    [[nodiscard]] std::vector<HandOff> records() {
        const auto all = load_records<HandOff>(session().shop(), build_);
        EXPECT_TRUE(all.ok());
        return *all;
    }
    static QByteArray content(const QString& file) {
        QFile opened(file);
        EXPECT_TRUE(opened.open(QIODevice::ReadOnly)) << file.toStdString();
        return opened.readAll();
    }
    /// Exit code of `sha256sum -c` (GNU coreutils) in the folder.
    static int checked(const QString& folder) {
        QProcess process;
        process.setWorkingDirectory(folder);
        process.start("sha256sum", {"-c", "--strict", digests_file_name});
        EXPECT_TRUE(process.waitForFinished());
        return process.exitCode();
    }
    void choose_photo() {
        const QString file = folder_.filePath("deck; rm -rf.png");
        QImage picture(60, 40, QImage::Format_RGB32);
        picture.fill(Qt::blue);
        ASSERT_TRUE(picture.save(file));
        ASSERT_TRUE(keep_photo(session(), {build_}, file).ok());
        const auto photos = load_records<Photo>(session().shop(), build_);
        Photo chosen = photos->front();
        chosen.in_book = true;
        ASSERT_TRUE(change_photo(session(), photos->front(), chosen).ok());
    }
};

TEST_F(HandOverTest, TheFolderHasAllThatTheCustomerGetsAndShowsWhetherItWasAltered) {
    choose_photo();
    const HandedOver done = over(folder_.filePath("given"));
    const QDir given(done.folder);
    for (const char* name : {book_file_name, card_file_name, readings_file_name, set_up_file_name,
                             how_to_check_file_name, digests_file_name}) {
        EXPECT_TRUE(given.exists(name)) << name;
    }
    EXPECT_TRUE(given.exists("photos/001-deck__rm_-rf.png"));
    EXPECT_EQ(done.photos, 1);
    EXPECT_EQ(content(given.filePath(digests_file_name)).count('\n'), 6) << "one for each file";
    EXPECT_EQ(checked(done.folder), 0);
    for (const char* name : {book_file_name, readings_file_name, "photos/001-deck__rm_-rf.png"}) {
        const QByteArray whole = content(given.filePath(name));
        QByteArray altered = whole;
        altered[altered.size() / 2] = static_cast<char>(altered[altered.size() / 2] ^ 1);
        QFile file(given.filePath(name));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(altered);
        file.close();
        EXPECT_NE(checked(done.folder), 0) << name;
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(whole);
        file.close();
    }
    EXPECT_EQ(checked(done.folder), 0);
}

TEST_F(HandOverTest, ReadingsThatASpreadsheetWouldTakeForFormulasAreWords) {
    read("oil_used", "", "=HYPERLINK(\"http://x\")");
    const HandedOver done = over(folder_.filePath("given"));
    const QString csv = QString::fromUtf8(content(done.folder + '/' + readings_file_name));
    EXPECT_TRUE(csv.contains("'=HYPERLINK")) << csv.toStdString();
    EXPECT_FALSE(csv.contains("\n=HYPERLINK") || csv.contains(",=HYPERLINK") ||
                 csv.contains(",\"=HYPERLINK"));
}

TEST_F(HandOverTest, WhatWasGivenIsKeptAndALaterBookSaysWhatHasChanged) {
    read("lash_hot", "3I", ".026");
    const HandedOver first = over(folder_.filePath("first"));
    ASSERT_EQ(records().size(), 1U);
    const HandOff kept = records().front();
    EXPECT_EQ(kept.version, 1);
    EXPECT_EQ(kept.given_to, "Ada Brandvold");
    EXPECT_EQ(kept.service_dates, "Lash after 500 miles");
    EXPECT_EQ(kept.signature, "A. Brandvold");
    // The book itself is kept by its digest, byte for byte.
    const auto path = path_of(session().shop(), *kept.book_digest);
    ASSERT_TRUE(path.has_value());
    EXPECT_EQ(content(QString::fromStdString(*path)), content(first.folder + "/build-book.pdf"));
    // The chain had this head before the hand-over was written down.
    EXPECT_TRUE(act_of_head(session().shop(), build_, kept.history_head)->has_value());

    const std::string changes = "book B\nsection changes\nsection glance\n";
    EXPECT_TRUE(tests::BookShop::solid(text_of(write_book(changes, "same.pdf")))
                    .contains("Nothinghaschangedsincethebookbefore."));
    read("lash_hot", "3I", ".029");
    const QString text = solid(text_of(write_book(changes, "changed.pdf")));
    EXPECT_TRUE(text.contains(solid("Lash, hot 3I"))) << text.toStdString();
    EXPECT_LT(text.indexOf(".026"), text.indexOf(".029"));
    EXPECT_GT(text.indexOf(".026"), 0);

    EXPECT_EQ(over(folder_.filePath("second")).version, 2);
    EXPECT_EQ(edits_to_create(records().front()), edits_to_create(kept)) << "as it was given";
}

TEST_F(HandOverTest, NothingIsGivenWhereTheFolderIsThereOrItIsStopped) {
    const QString folder = folder_.filePath("given");
    ASSERT_TRUE(QDir().mkpath(folder));
    const auto refused = hand_over(session(), build_, wish(), folder);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::cannot_write);
    EXPECT_TRUE(records().empty());
    std::stop_source stop;
    const QString other = folder_.filePath("other");
    const auto stopped = hand_over(
        session(), build_, wish(), other,
        [&](int page, int) {
            if (page == 2) stop.request_stop();
        },
        stop.get_token());
    ASSERT_TRUE(stopped.ok());
    EXPECT_FALSE(stopped->has_value());
    EXPECT_FALSE(QDir(other).exists());
    EXPECT_TRUE(records().empty());
    EXPECT_TRUE(
        QDir(folder_.path()).entryList({".rodway-*"}, QDir::AllEntries | QDir::Hidden).empty());
}

} // namespace
} // namespace rodway
