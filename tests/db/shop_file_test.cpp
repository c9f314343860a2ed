#include "db/shop_file.h"

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <QDir>
#include <QFile>

#include "db/build_store.h"
#include "db/connection.h"
#include "db/migrations.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ShopFileTest = ShopTest;

std::string pragma(ShopFile& shop, const QString& name) {
    return take(shop.connection().single("PRAGMA " + name)).toString().toStdString();
}

TEST_F(ShopFileTest, MakesAnEmptyShopOfItsOwnKind) {
    {
        ShopFile shop = new_shop();
        EXPECT_EQ(pragma(shop, "foreign_keys"), "1");
        EXPECT_EQ(pragma(shop, "journal_mode"), "wal");
        EXPECT_EQ(pragma(shop, "synchronous"), "2");
        EXPECT_EQ(pragma(shop, "busy_timeout"), "5000");
        EXPECT_THAT(take(load_builds(shop)), IsEmpty());
        EXPECT_EQ(take(last_act(shop)), 0);
        EXPECT_FALSE(shop.backup().has_value());
        EXPECT_THAT(take(shop.check()).findings, IsEmpty());
    }
    EXPECT_THAT(names(), ElementsAre("shop.rodway"));
    EXPECT_EQ(ask(in_folder("shop.rodway"), "PRAGMA application_id"), "1380926551"); // "RODW"
    EXPECT_EQ(ask(in_folder("shop.rodway"), "PRAGMA user_version"),
              std::to_string(own_migrations().size()));
}

TEST_F(ShopFileTest, SetsForeignKeysAndFullSyncOnEveryOpening) {
    static_cast<void>(new_shop());
    ShopFile shop = take(ShopFile::open(in_folder("shop.rodway")));
    EXPECT_EQ(pragma(shop, "foreign_keys"), "1");
    EXPECT_EQ(pragma(shop, "synchronous"), "2");
    EXPECT_EQ(pragma(shop, "busy_timeout"), "5000");
    EXPECT_EQ(refusal(shop.connection().run("INSERT INTO set_ups VALUES (1, 77, 'x')")).code,
              ErrorCode::wrong_type);
}

TEST_F(ShopFileTest, NeverMakesAFileThatExists) {
    write_bytes(in_folder("notes.txt"), "mine");
    const Error error = refusal(ShopFile::create(in_folder("notes.txt")));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.field, in_folder("notes.txt"));
    EXPECT_EQ(error.value, "exists");
    EXPECT_EQ(bytes_of(in_folder("notes.txt")), "mine");
    EXPECT_THAT(names(), ElementsAre("notes.txt"));
}

TEST_F(ShopFileTest, NeverMakesAFileBesideALogThatWouldBePlayedIntoIt) {
    write_bytes(in_folder("shop.rodway-wal"), "old");
    const Error error = refusal(ShopFile::create(in_folder("shop.rodway")));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.field, in_folder("shop.rodway-wal"));
    EXPECT_THAT(names(), ElementsAre("shop.rodway-wal"));
}

TEST_F(ShopFileTest, NamesAFolderThatIsNotThere) {
    const Error error = refusal(ShopFile::create(in_folder("none/shop.rodway")));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.value, "no_folder");
    EXPECT_THAT(names(), IsEmpty());
}

TEST_F(ShopFileTest, OpeningWhatIsNotThereLeavesNothingBehind) {
    EXPECT_EQ(refusal(ShopFile::open(in_folder("none.rodway"))).code, ErrorCode::cannot_read);
    EXPECT_EQ(refusal(ShopFile::open(folder_.path().toStdString())).code, ErrorCode::cannot_read);
    EXPECT_THAT(names(), IsEmpty());
}

TEST_F(ShopFileTest, RefusesFilesOfOthersAndLeavesThemAsTheyAre) {
    write_bytes(in_folder("empty"), "");
    write_bytes(in_folder("text"), std::string(5000, 't'));
    write_bytes(in_folder("short"), "SQLite format 3");
    tamper(in_folder("other.db"), "CREATE TABLE builds (id INTEGER PRIMARY KEY)");
    tamper(in_folder("numbered.db"), "PRAGMA application_id = 77");
    const auto before = names();
    for (const std::string& name : before) {
        const std::string bytes = bytes_of(in_folder(name));
        EXPECT_EQ(refusal(ShopFile::open(in_folder(name))).code, ErrorCode::foreign_file) << name;
        EXPECT_EQ(bytes_of(in_folder(name)), bytes) << name;
    }
    EXPECT_EQ(names(), before);
}

TEST_F(ShopFileTest, RefusesANewerVersionAndLeavesItAsItIs) {
    static_cast<void>(new_shop());
    const std::string path = in_folder("shop.rodway");
    tamper(path, "PRAGMA user_version = 99");
    const std::string bytes = bytes_of(path);
    const Error error = refusal(ShopFile::open(path));
    EXPECT_EQ(error.code, ErrorCode::newer_version);
    EXPECT_EQ(error.value, "99");
    EXPECT_EQ(error.expected, std::to_string(own_migrations().size()));
    EXPECT_EQ(bytes_of(path), bytes);
    EXPECT_THAT(names(), ElementsAre("shop.rodway"));
}

void fill(ShopFile& shop) {
    for (int id = 1; id <= 100; ++id) {
        Build build = sample_build(id);
        build.note = std::string(500, 'n');
        take(apply(shop, edits_to_create(build), "Dee", noon));
    }
}

TEST_F(ShopFileTest, KnowsACutOffFileByItsDamage) {
    const std::string path = in_folder("shop.rodway");
    {
        ShopFile shop = new_shop();
        fill(shop);
    }
    const std::string bytes = bytes_of(path);
    ASSERT_GT(bytes.size(), 100'000U);
    for (const std::size_t length : {std::size_t{600}, std::size_t{4096}, std::size_t{5000},
                                     bytes.size() / 2, bytes.size() - 4096, bytes.size() - 1}) {
        write_bytes(path, bytes.substr(0, length));
        const auto opened = ShopFile::open(path);
        EXPECT_EQ(refusal(opened).code, ErrorCode::damaged_file) << length;
        EXPECT_EQ(bytes_of(path), bytes.substr(0, length));
    }
    write_bytes(path, bytes);
    EXPECT_TRUE(ShopFile::open(path).ok());
}

TEST_F(ShopFileTest, KnowsAnOverwrittenPageByItsDamage) {
    const std::string path = in_folder("shop.rodway");
    {
        ShopFile shop = new_shop();
        fill(shop);
    }
    std::string bytes = bytes_of(path);
    bytes.replace(bytes.size() / 2, 8192, std::string(8192, '\x5a'));
    write_bytes(path, bytes);
    EXPECT_EQ(refusal(ShopFile::open(path)).code, ErrorCode::damaged_file);
}

TEST_F(ShopFileTest, SaysThatAnotherProgramHoldsTheFile) {
    using namespace std::chrono_literals;
    static_cast<void>(new_shop());
    const std::string path = in_folder("shop.rodway");
    {
        Connection other = take(Connection::open_existing(path, 0ms));
        take(other.run("PRAGMA locking_mode = EXCLUSIVE"));
        take(other.run("BEGIN IMMEDIATE"));
        take(other.run("COMMIT"));
        EXPECT_EQ(refusal(ShopFile::open(path, 50ms)).code, ErrorCode::locked_file);
    }
    EXPECT_TRUE(ShopFile::open(path, 50ms).ok());
}

TEST_F(ShopFileTest, OpensByALinkAndPutsItsLogBesideTheRealFile) {
    static_cast<void>(new_shop());
    QDir(folder_.path()).mkdir("desk");
    QFile::link(QString::fromStdString(in_folder("shop.rodway")),
                QString::fromStdString(in_folder("desk/link.rodway")));
    const ShopFile shop = take(ShopFile::open(in_folder("desk/link.rodway")));
    EXPECT_THAT(shop.path(), ::testing::EndsWith("/shop.rodway"));
}

TEST_F(ShopFileTest, OpensNamesThatMeanSomethingInAUri) {
    const std::string name = "50% of #3 & what?mode=memory 'é'.rodway";
    {
        ShopFile shop = new_shop(name);
        take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
    }
    EXPECT_THAT(names(), ElementsAre(name));
    ShopFile shop = take(ShopFile::open(in_folder(name)));
    EXPECT_EQ(take(load_builds(shop)).size(), 1U);
}

TEST_F(ShopFileTest, TwoObjectsOnOneFileSeeEachOthersEdits) {
    ShopFile first = new_shop();
    ShopFile second = take(ShopFile::open(first.path()));
    const Act act = take(apply(first, edits_to_create(sample_build(1)), "Dee", noon));
    EXPECT_EQ(take(last_act(second)), act.number);
    const Edit rename{{RecordKind::build, 1}, "name", "Blue pickup", "Blue truck"};
    take(apply(second, {rename}, "Kim", noon));
    EXPECT_EQ(take(load_build(first, 1)).name, "Blue truck");
    const auto news = take(acts_since(first, act.number));
    ASSERT_EQ(news.size(), 1U);
    EXPECT_EQ(news[0].who, "Kim");
    EXPECT_THAT(news[0].edits, ElementsAre(rename));
}

TEST_F(ShopFileTest, StaysUsableAfterAMove) {
    ShopFile first = new_shop();
    ShopFile second = std::move(first);
    ShopFile third = new_shop("third.rodway");
    third = std::move(second);
    take(apply(third, edits_to_create(sample_build(1)), "Dee", noon));
    EXPECT_THAT(third.path(), ::testing::EndsWith("/shop.rodway"));
}

TEST(NetworkFileSystem, IsKnownByTheSystemsNameForIt) {
    for (const char* type : {"nfs", "nfs4", "cifs", "smb3", "fuse.sshfs", "9p"}) {
        EXPECT_TRUE(is_network_file_system(type)) << type;
    }
    for (const char* type :
         {"ext4", "btrfs", "xfs", "apfs", "NTFS", "vfat", "tmpfs", "overlay", ""}) {
        EXPECT_FALSE(is_network_file_system(type)) << type;
    }
}

/// What opening and creating answer to somebody who isn't the administrator, for whom read-only
/// doesn't count. 0 stands for success, else code + 1.
struct Answers {
    int open = -1;
    int create = -1;
};

Answers answers_to_a_plain_user(const std::string& shop, const std::string& fresh) {
    int ends[2] = {};
    if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
    const pid_t child = ::fork();
    if (child == 0) {
        constexpr unsigned nobody = 65534;
        Answers answers;
        if (::getuid() != 0 || (::setgid(nobody) == 0 && ::setuid(nobody) == 0)) {
            const auto code = [](const auto& result) {
                return result ? 0 : static_cast<int>(result.error().code) + 1;
            };
            answers.open = code(ShopFile::open(shop));
            answers.create = code(ShopFile::create(fresh));
        }
        const auto written = ::write(ends[1], &answers, sizeof answers);
        ::_exit(written == sizeof answers ? 0 : 1);
    }
    Answers answers;
    ::close(ends[1]);
    const auto got = ::read(ends[0], &answers, sizeof answers);
    ::close(ends[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    if (got != sizeof answers || status != 0) throw std::runtime_error("the child gave no answer");
    return answers;
}

class ReadOnly : public ShopTest {
  protected:
    void SetUp() override {
        QDir(folder_.path()).mkdir("bench");
        {
            ShopFile shop = new_shop("bench/shop.rodway");
            take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
        }
        ::chmod(folder_.path().toStdString().c_str(), 0755);
        bytes_ = bytes_of(in_folder("bench/shop.rodway"));
    }
    void TearDown() override { ::chmod(in_folder("bench").c_str(), 0755); }

    Answers answers(mode_t folder_mode, mode_t file_mode) {
        ::chmod(in_folder("bench/shop.rodway").c_str(), file_mode);
        ::chmod(in_folder("bench").c_str(), folder_mode);
        return answers_to_a_plain_user(in_folder("bench/shop.rodway"),
                                       in_folder("bench/new.rodway"));
    }
    void expect_untouched() {
        EXPECT_EQ(bytes_of(in_folder("bench/shop.rodway")), bytes_);
        const auto all = QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot;
        EXPECT_EQ(QDir(QString::fromStdString(in_folder("bench"))).entryList(all),
                  QStringList("shop.rodway"));
    }

    static constexpr int cannot_write = static_cast<int>(ErrorCode::cannot_write) + 1;
    static constexpr int cannot_read = static_cast<int>(ErrorCode::cannot_read) + 1;
    std::string bytes_;
};

TEST_F(ReadOnly, FolderRefusesBothAndStaysAsItIs) {
    const Answers got = answers(0555, 0666);
    EXPECT_EQ(got.open, cannot_write);
    EXPECT_EQ(got.create, cannot_write);
    expect_untouched();
}

TEST_F(ReadOnly, FileRefusesOpeningAndStaysAsItIs) {
    const Answers got = answers(0777, 0444);
    EXPECT_EQ(got.open, cannot_write);
    EXPECT_EQ(got.create, 0);
    QFile::remove(QString::fromStdString(in_folder("bench/new.rodway")));
    expect_untouched();
}

TEST_F(ReadOnly, FileThatMayNotBeReadSaysSo) {
    const Answers got = answers(0777, 0000);
    EXPECT_EQ(got.open, cannot_read);
}

TEST_F(ReadOnly, IsNotSaidOfAFolderThatMayBeWritten) {
    const Answers got = answers(0777, 0666);
    EXPECT_EQ(got.open, 0);
    EXPECT_EQ(got.create, 0);
}

} // namespace
} // namespace rodway
