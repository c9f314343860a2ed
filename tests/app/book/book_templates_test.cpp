#include "app/book/book_templates.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QTemporaryDir>

namespace rodway {
namespace {

class BookTemplates : public ::testing::Test {
  protected:
    void write(const QString& name, const QByteArray& text) {
        QFile file(folder_.filePath(name));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(text);
    }
    [[nodiscard]] std::string title_of(const QString& named) const {
        const auto found = find_book_template(named, folder_.path());
        return found ? found->title : "refused: " + found.error().field;
    }

    QTemporaryDir folder_;
};

TEST_F(BookTemplates, AreFoundByTheirWordTheirPathOrTheirNameInTheShopsFolder) {
    write("marine.txt", "book Boat book\nsection settings\n");
    write("short.txt", "book Not the built-in one\nsection settings\n");
    EXPECT_EQ(title_of("marine"), "Boat book");
    EXPECT_EQ(title_of("marine.txt"), "Boat book");
    EXPECT_EQ(title_of(folder_.filePath("marine.txt")), "Boat book");
    EXPECT_EQ(title_of("short"), find_book_template("short")->title) << "built in";
    EXPECT_EQ(title_of("short.txt"), "Not the built-in one");
    EXPECT_EQ(title_of("tractor"), "refused: tractor");
    EXPECT_FALSE(find_book_template("marine").ok()) << "without a folder";
}

TEST_F(BookTemplates, ThoseOfTheShopAreListedByName) {
    write("b.txt", "book B\n");
    write("a.txt", "book A\n");
    write("c.pdf", "none");
    const auto found = own_templates(folder_.path());
    ASSERT_EQ(found.size(), 2U);
    EXPECT_TRUE(found[0].endsWith("/a.txt") && found[1].endsWith("/b.txt"));
    EXPECT_TRUE(own_templates({}).empty());
    EXPECT_TRUE(own_templates(folder_.filePath("nowhere")).empty());
}

TEST_F(BookTemplates, ABrokenOneIsRefusedWithItsLine) {
    write("broken.txt", "book B\n# a remark\nsection nonsense\n");
    const auto found = find_book_template("broken", folder_.path());
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.error().line, 3);
}

} // namespace
} // namespace rodway
