#include "tests/app/command_line/demo_engine.h"

namespace rodway::tests {
namespace {

class BookCommandsTest : public DemoEngine {
  protected:
    [[nodiscard]] QString file(const char* name) const { return folder_.filePath(name); }
    static bool is_pdf(const QString& path) {
        QFile opened(path);
        return opened.open(QIODevice::ReadOnly) && opened.read(5) == "%PDF-";
    }
    [[nodiscard]] QStringList missing() const {
        QStringList kinds;
        for (const QJsonValue& one : answer("book-missing")["missing"].toArray()) {
            kinds << one["missing"].toString();
        }
        return kinds;
    }
};

TEST_F(BookCommandsTest, ABookIsWrittenOnceAndNeverOverTheShop) {
    const QJsonObject done = answer("book", {"--to", file("book.pdf"), "--paper", "letter"});
    EXPECT_TRUE(is_pdf(file("book.pdf")));
    EXPECT_GT(done["pages"].toInt(), 10);
    EXPECT_EQ(done["missing"].toInt(), missing().size());
    EXPECT_EQ(command("book", {"--to", file("book.pdf")}).exit_code, 6);
    EXPECT_EQ(command("book", {"--to", file("book.pdf"), "--replace"}).exit_code, 0);
    EXPECT_EQ(command("book", {"--to", shop_, "--replace"}).exit_code, 6);
    EXPECT_EQ(run({"check", shop_}).exit_code, 0);
    EXPECT_EQ(command("book", {"--to", file("b.pdf"), "--paper", "a9"}).exit_code, 2);
}

TEST_F(BookCommandsTest, ABrokenTemplateIsRefusedWithItsLine) {
    QFile pattern(file("own.txt"));
    ASSERT_TRUE(pattern.open(QIODevice::WriteOnly));
    pattern.write("book Ours\n\nsection cover\nsection covers\n");
    pattern.close();
    const Ran ran = command("book", {"--to", file("book.pdf"), "--template", file("own.txt")});
    EXPECT_EQ(ran.exit_code, 3);
    EXPECT_TRUE(ran.complaints.contains("line 4")) << ran.complaints.toStdString();
    EXPECT_TRUE(ran.complaints.contains("covers")) << ran.complaints.toStdString();
    EXPECT_FALSE(QFile::exists(file("book.pdf")));
    EXPECT_EQ(command("book", {"--to", file("book.pdf"), "--template", file("none.txt")}).exit_code,
              6);
}

TEST_F(BookCommandsTest, WhatIsMissingGoesAwayAsItIsMended) {
    ASSERT_TRUE(missing().contains("seals"));
    ASSERT_TRUE(missing().contains("customer"));
    ASSERT_EQ(command("read", {"seal_numbers", "", "4411"}).exit_code, 0);
    ASSERT_EQ(run({"add-customer", shop_, "Ada Brandvold", "--build", v8}).exit_code, 0);
    EXPECT_FALSE(missing().contains("seals"));
    EXPECT_FALSE(missing().contains("customer"));
}

TEST_F(BookCommandsTest, HandingOverMakesAFolderAndIsListed) {
    EXPECT_TRUE(answer("hand-overs")["hand_overs"].toArray().empty());
    const QJsonObject done =
        answer("hand-over", {file("given"), "--given-to", "Ada", "--service", "After 500 miles"});
    EXPECT_EQ(done["number"].toInt(), 1);
    EXPECT_TRUE(is_pdf(file("given/build-book.pdf")));
    const QJsonArray listed = answer("hand-overs")["hand_overs"].toArray();
    ASSERT_EQ(listed.size(), 1);
    EXPECT_EQ(listed[0]["given_to"].toString(), "Ada");
    EXPECT_TRUE(is_pdf(listed[0]["book_kept_at"].toString()));
    EXPECT_FALSE(missing().contains("service_dates"));
    EXPECT_EQ(command("hand-over", {file("given")}).exit_code, 6);
    EXPECT_EQ(answer("hand-overs")["hand_overs"].toArray().size(), 1);
}

TEST_F(BookCommandsTest, TheBenchsPapersAreWritten) {
    for (const char* name : {"print-plan", "print-torque-order"}) {
        EXPECT_EQ(command(name, {"--to", file(name)}).exit_code, 0) << name;
        EXPECT_TRUE(is_pdf(file(name))) << name;
    }
    EXPECT_EQ(run({"print-buy-list", shop_, "--to", file("buy.pdf")}).exit_code, 0);
    EXPECT_TRUE(is_pdf(file("buy.pdf")));
}

} // namespace
} // namespace rodway::tests
