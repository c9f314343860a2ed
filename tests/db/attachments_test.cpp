#include "db/attachments.h"

#include <QDir>
#include <QFile>

#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::EndsWith;

// SHA-256 of "abc": FIPS 180-2, appendix B.1
const std::string abc_digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

class AttachmentsTest : public ShopTest {
  protected:
    [[nodiscard]] std::vector<std::string> shelf(const std::string& name) const {
        std::vector<std::string> found;
        const QDir folder(QString::fromStdString(in_folder("shop.photos/" + name)));
        const auto all = QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot;
        for (const QString& entry : folder.entryList(all, QDir::Name)) {
            found.push_back(entry.toStdString());
        }
        return found;
    }
    ShopFile shop_ = new_shop();
};

TEST_F(AttachmentsTest, KeepAFileUnderItsContentsDigest) {
    write_bytes(in_folder("Rod tip.JPG"), "abc");
    const StoredFile stored = take(keep(shop_, in_folder("Rod tip.JPG")));
    EXPECT_EQ(stored.digest, abc_digest);
    EXPECT_EQ(stored.file_name, "Rod tip.JPG");
    EXPECT_EQ(stored.bytes, 3);
    EXPECT_THAT(stored.path, EndsWith("/shop.photos/ba/" + abc_digest + ".jpg"));
    EXPECT_EQ(bytes_of(stored.path), "abc");
    EXPECT_EQ(path_of(shop_, abc_digest), stored.path);
    EXPECT_EQ(bytes_of(in_folder("Rod tip.JPG")), "abc");
    EXPECT_THAT(shelf(""), ElementsAre("ba"));
}

TEST_F(AttachmentsTest, KeepOneContentOnceUnderWhateverName) {
    write_bytes(in_folder("a.jpg"), "abc");
    write_bytes(in_folder("b.jpeg"), "abc");
    write_bytes(in_folder("c.jpg"), "abcd");
    const StoredFile first = take(keep(shop_, in_folder("a.jpg")));
    const StoredFile second = take(keep(shop_, in_folder("b.jpeg")));
    const StoredFile other = take(keep(shop_, in_folder("c.jpg")));
    EXPECT_EQ(first.path, second.path);
    EXPECT_EQ(second.file_name, "b.jpeg");
    EXPECT_THAT(shelf("ba"), ElementsAre(abc_digest + ".jpg"));
    EXPECT_NE(other.path, first.path);
    EXPECT_EQ(bytes_of(other.path), "abcd");
}

TEST_F(AttachmentsTest, MakeAnAlteredCopyWholeAgain) {
    write_bytes(in_folder("a.jpg"), "abc");
    const StoredFile stored = take(keep(shop_, in_folder("a.jpg")));
    write_bytes(stored.path, "abX");
    EXPECT_EQ(take(keep(shop_, in_folder("a.jpg"))).path, stored.path);
    EXPECT_EQ(bytes_of(stored.path), "abc");
}

TEST_F(AttachmentsTest, KeepABigFileByteForByte) {
    std::string bytes;
    for (int i = 0; i < 1'000'003; ++i) bytes += static_cast<char>(i * 7 + i / 256);
    write_bytes(in_folder("scan"), bytes);
    const StoredFile stored = take(keep(shop_, in_folder("scan")));
    EXPECT_EQ(bytes_of(stored.path), bytes);
    EXPECT_EQ(stored.bytes, 1'000'003);
    EXPECT_THAT(stored.path, EndsWith(".bin"));
    EXPECT_EQ(take(digest_of_file(stored.path)), stored.digest);
}

TEST_F(AttachmentsTest, RefuseWhatIsNoFileOrEmptyAndLeaveNothingBehind) {
    write_bytes(in_folder("empty.jpg"), "");
    EXPECT_EQ(refusal(keep(shop_, in_folder("empty.jpg"))).code, ErrorCode::empty_file);
    const Error missing = refusal(keep(shop_, in_folder("none.jpg")));
    EXPECT_EQ(missing.code, ErrorCode::cannot_read);
    EXPECT_EQ(missing.field, in_folder("none.jpg"));
    EXPECT_EQ(refusal(keep(shop_, folder_.path().toStdString())).code, ErrorCode::cannot_read);
    EXPECT_FALSE(QDir(QString::fromStdString(in_folder("shop.photos"))).exists());
    EXPECT_FALSE(path_of(shop_, abc_digest).has_value());
}

} // namespace
} // namespace rodway
