#include "db/migrations.h"

#include <QDateTime>
#include <chrono>

#include "db/build_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;
using ::testing::HasSubstr;
using ::testing::StartsWith;

class MigrationsTest : public ShopTest {
  protected:
    void SetUp() override {
        ShopFile shop = new_shop();
        take(apply(shop, edits_of_whole_build(), "Dee", noon));
        path_ = shop.path();
        before_ = dump_with_history(path_);
    }

    static std::vector<Migration> with_second(const std::string& sql) {
        std::vector<Migration> migrations = own_migrations();
        migrations.push_back(Migration{static_cast<int>(migrations.size()) + 1, sql});
        return migrations;
    }

    std::string path_;
    std::string before_;
};

TEST_F(MigrationsTest, AreNumberedFromOneAndBeginWithASentence) {
    int number = 0;
    for (const Migration& migration : own_migrations()) {
        EXPECT_EQ(migration.version, ++number);
        EXPECT_THAT(migration.sql, StartsWith("-- "));
        EXPECT_EQ(migration.sql.at(migration.sql.find('\n') - 1), '.');
    }
    EXPECT_GE(number, 1);
}

TEST_F(MigrationsTest, MakeABackupThatOpensAsTheOldVersion) {
    std::string backup;
    {
        Connection connection = take(Connection::open_existing(path_, 0ms));
        const auto made =
            take(migrate(connection, with_second("ALTER TABLE builds ADD COLUMN colour TEXT;"
                                                 "UPDATE builds SET colour = 'blue'")));
        ASSERT_TRUE(made.has_value());
        backup = *made;
        EXPECT_EQ(take(schema_version(connection)), 2);
    }
    EXPECT_EQ(ask(path_, "SELECT colour FROM builds"), "blue");
    const std::string today = QDateTime::currentDateTimeUtc().toString("yyyy-MM-dd").toStdString();
    EXPECT_THAT(backup, HasSubstr("/shop.backup-v1-" + today.substr(0, 7)));
    EXPECT_EQ(dump_with_history(backup), before_);
    ShopFile opened = take(ShopFile::open(backup));
    EXPECT_EQ(take(load_builds(opened)).size(), 1U);
}

TEST_F(MigrationsTest, NeverWriteOverAnEarlierBackup) {
    for (int round = 0; round < 2; ++round) {
        Connection connection = take(Connection::open_existing(path_, 0ms));
        static_cast<void>(take(migrate(connection, with_second("SELECT 1"))));
        take(connection.run("PRAGMA user_version = 1"));
        take(connection.run("UPDATE builds SET name = 'later'"));
    }
    std::vector<std::string> stored;
    for (const std::string& name : names()) {
        if (name.find("backup") == std::string::npos) continue;
        stored.push_back(ask(in_folder(name), "SELECT name FROM builds"));
    }
    EXPECT_THAT(stored, ::testing::UnorderedElementsAre("Blue pickup", "later"));
}

TEST_F(MigrationsTest, ThatFailHalfWayLeaveTheOldVersionWhole) {
    std::vector<Migration> migrations = with_second(
        "CREATE TABLE colours (id INTEGER PRIMARY KEY) STRICT; UPDATE builds SET name = 'gone';"
        "PRAGMA user_version = 2; INSERT INTO no_such_table VALUES (1)");
    migrations.push_back(Migration{3, "CREATE TABLE never (id INTEGER)"});
    {
        Connection connection = take(Connection::open_existing(path_, 0ms));
        EXPECT_FALSE(migrate(connection, migrations).ok());
        EXPECT_EQ(take(schema_version(connection)), 1);
    }
    EXPECT_EQ(dump_with_history(path_), before_);
    EXPECT_EQ(ask(path_, "SELECT count(*) FROM sqlite_schema WHERE name IN ('colours', 'never')"),
              "0");
    ShopFile opened = take(ShopFile::open(path_));
    EXPECT_EQ(take(opened.check()).findings.size(), 1U); // the sample photo has no file
}

TEST_F(MigrationsTest, ThatReachedAVersionWholeKeepItWhenALaterOneFails) {
    std::vector<Migration> migrations = with_second("CREATE TABLE colours (id INTEGER)");
    migrations.push_back(Migration{3, "CREATE TABLE never (id INTEGER); nonsense"});
    Connection connection = take(Connection::open_existing(path_, 0ms));
    EXPECT_FALSE(migrate(connection, migrations).ok());
    EXPECT_EQ(take(schema_version(connection)), 2);
    EXPECT_EQ(take(connection.single("SELECT group_concat(name) FROM sqlite_schema WHERE name IN"
                                     " ('colours', 'never')"))
                  .toString(),
              "colours");
}

TEST_F(MigrationsTest, DoNothingToAFileOfThisVersion) {
    Connection connection = take(Connection::open_existing(path_, 0ms));
    EXPECT_FALSE(take(migrate(connection, own_migrations())).has_value());
    EXPECT_EQ(dump_with_history(path_), before_);
}

TEST_F(MigrationsTest, RefuseANewerFile) {
    Connection connection = take(Connection::open_existing(path_, 0ms));
    take(connection.run("PRAGMA user_version = 2"));
    EXPECT_EQ(refusal(migrate(connection, own_migrations())).code, ErrorCode::newer_version);
}

TEST_F(MigrationsTest, AreNotBegunIfNoBackupCanBeMade) {
    Connection connection = take(Connection::open_existing(path_, 0ms));
    take(connection.run("BEGIN IMMEDIATE")); // a copy can't be made inside a transaction
    EXPECT_FALSE(migrate(connection, with_second("UPDATE builds SET name = 'gone'")).ok());
    take(connection.run("COMMIT"));
    EXPECT_EQ(dump_with_history(path_), before_);
    for (const std::string& name : names()) EXPECT_THAT(name, StartsWith("shop.rodway"));
}

} // namespace
} // namespace rodway
