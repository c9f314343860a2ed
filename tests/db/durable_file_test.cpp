#include "db/durable_file.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using DurableFileTest = ShopTest;

TEST_F(DurableFileTest, WritesEveryByteAndLeavesNothingElse) {
    const std::string bytes = std::string("a\0b\r\n\xff", 6) + std::string(3'000'000, 'x');
    take(write_durably(in_folder("card.csv"), bytes));
    EXPECT_EQ(bytes_of(in_folder("card.csv")), bytes);
    EXPECT_THAT(names(), ElementsAre("card.csv"));
}

TEST_F(DurableFileTest, ReplacesALongerFileAndKeepsItsPermissions) {
    write_bytes(in_folder("card.csv"), "a much longer text than the new one");
    const auto permissions = QFileDevice::ReadOwner | QFileDevice::WriteOwner;
    QFile::setPermissions(QString::fromStdString(in_folder("card.csv")), permissions);
    take(write_durably(in_folder("card.csv"), "new"));
    EXPECT_EQ(bytes_of(in_folder("card.csv")), "new");
    const auto kept = QFile::permissions(QString::fromStdString(in_folder("card.csv")));
    EXPECT_FALSE(kept & (QFileDevice::ReadGroup | QFileDevice::ReadOther));
}

TEST_F(DurableFileTest, ShowsTheOldContentUntilItIsCommitted) {
    write_bytes(in_folder("card.csv"), "old");
    {
        DurableFile file = take(DurableFile::begin(folder_.path().toStdString()));
        take(file.write("new"));
        EXPECT_EQ(bytes_of(in_folder("card.csv")), "old");
        EXPECT_EQ(names().size(), 2U);
    }
    EXPECT_EQ(bytes_of(in_folder("card.csv")), "old");
    EXPECT_THAT(names(), ElementsAre("card.csv"));
}

TEST_F(DurableFileTest, FollowsALink) {
    write_bytes(in_folder("real.csv"), "old");
    QFile::link(QString::fromStdString(in_folder("real.csv")),
                QString::fromStdString(in_folder("link.csv")));
    take(write_durably(in_folder("link.csv"), "new"));
    EXPECT_EQ(bytes_of(in_folder("real.csv")), "new");
    EXPECT_TRUE(QFileInfo(QString::fromStdString(in_folder("link.csv"))).isSymLink());
}

TEST_F(DurableFileTest, NamesAFolderThatIsNotThere) {
    const Error error = refusal(write_durably(in_folder("none/card.csv"), "new"));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.field, in_folder("none"));
    EXPECT_EQ(error.value, "no_folder");
    EXPECT_THAT(names(), IsEmpty());
}

TEST_F(DurableFileTest, TakesItsTemporaryFileAwayWhenTheNameIsRefused) {
    QDir(folder_.path()).mkdir("taken");
    write_bytes(in_folder("taken/inside"), "x");
    const Error error = refusal(write_durably(in_folder("taken"), "new"));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.field, in_folder("taken"));
    EXPECT_THAT(names(), ElementsAre("taken"));
}

TEST_F(DurableFileTest, RenamesToAFreeNameAndNeverOverAnotherFile) {
    write_bytes(in_folder("new"), "new");
    write_bytes(in_folder("taken"), "old");
    const Error error = refusal(rename_to_free_name(in_folder("new"), in_folder("taken")));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.field, in_folder("taken"));
    EXPECT_EQ(error.value, "exists");
    EXPECT_EQ(bytes_of(in_folder("taken")), "old");
    take(rename_to_free_name(in_folder("new"), in_folder("free")));
    EXPECT_EQ(bytes_of(in_folder("free")), "new");
    EXPECT_THAT(names(), ElementsAre("free", "taken"));
}

TEST_F(DurableFileTest, SyncsWhatIsThereAndNamesWhatIsNot) {
    write_bytes(in_folder("card.csv"), "new");
    take(sync_file(in_folder("card.csv")));
    take(sync_folder(folder_.path().toStdString()));
    const Error error = refusal(sync_file(in_folder("none.csv")));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.field, in_folder("none.csv"));
}

} // namespace
} // namespace rodway
