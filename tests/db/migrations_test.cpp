#include "db/migrations.h"

#include <QDateTime>
#include <chrono>

#include "db/build_records.h"
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

    /// The program's own migrations and one more.
    static std::vector<Migration> with_another(const std::string& sql) {
        std::vector<Migration> migrations = own_migrations();
        migrations.push_back(Migration{static_cast<int>(migrations.size()) + 1, sql});
        return migrations;
    }

    const int own_ = static_cast<int>(own_migrations().size());

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
            take(migrate(connection, with_another("ALTER TABLE builds ADD COLUMN colour TEXT;"
                                                  "UPDATE builds SET colour = 'blue'")));
        ASSERT_TRUE(made.has_value());
        backup = *made;
        EXPECT_EQ(take(schema_version(connection)), own_ + 1);
    }
    EXPECT_EQ(ask(path_, "SELECT colour FROM builds"), "blue");
    const std::string today = QDateTime::currentDateTimeUtc().toString("yyyy-MM-dd").toStdString();
    EXPECT_THAT(backup,
                HasSubstr("/shop.backup-v" + std::to_string(own_) + "-" + today.substr(0, 7)));
    EXPECT_EQ(dump_with_history(backup), before_);
    ShopFile opened = take(ShopFile::open(backup));
    EXPECT_EQ(take(load_builds(opened)).size(), 1U);
}

TEST_F(MigrationsTest, NeverWriteOverAnEarlierBackup) {
    for (int round = 0; round < 2; ++round) {
        Connection connection = take(Connection::open_existing(path_, 0ms));
        static_cast<void>(take(migrate(connection, with_another("SELECT 1"))));
        take(connection.run("PRAGMA user_version = " + QString::number(own_)));
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
    std::vector<Migration> migrations = with_another(
        "CREATE TABLE colours (id INTEGER PRIMARY KEY) STRICT; UPDATE builds SET name = 'gone';"
        "PRAGMA user_version = 99; INSERT INTO no_such_table VALUES (1)");
    migrations.push_back(Migration{own_ + 2, "CREATE TABLE never (id INTEGER)"});
    {
        Connection connection = take(Connection::open_existing(path_, 0ms));
        EXPECT_FALSE(migrate(connection, migrations).ok());
        EXPECT_EQ(take(schema_version(connection)), own_);
    }
    EXPECT_EQ(dump_with_history(path_), before_);
    EXPECT_EQ(ask(path_, "SELECT count(*) FROM sqlite_schema WHERE name IN ('colours', 'never')"),
              "0");
    ShopFile opened = take(ShopFile::open(path_));
    EXPECT_EQ(take(opened.check()).findings.size(), 1U); // the sample photo has no file
}

TEST_F(MigrationsTest, ThatReachedAVersionWholeKeepItWhenALaterOneFails) {
    std::vector<Migration> migrations = with_another("CREATE TABLE colours (id INTEGER)");
    migrations.push_back(Migration{own_ + 2, "CREATE TABLE never (id INTEGER); nonsense"});
    Connection connection = take(Connection::open_existing(path_, 0ms));
    EXPECT_FALSE(migrate(connection, migrations).ok());
    EXPECT_EQ(take(schema_version(connection)), own_ + 1);
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
    take(connection.run("PRAGMA user_version = " + QString::number(own_ + 1)));
    EXPECT_EQ(refusal(migrate(connection, own_migrations())).code, ErrorCode::newer_version);
}

TEST_F(MigrationsTest, AreNotBegunIfNoBackupCanBeMade) {
    Connection connection = take(Connection::open_existing(path_, 0ms));
    take(connection.run("BEGIN IMMEDIATE")); // a copy can't be made inside a transaction
    EXPECT_FALSE(migrate(connection, with_another("UPDATE builds SET name = 'gone'")).ok());
    take(connection.run("COMMIT"));
    EXPECT_EQ(dump_with_history(path_), before_);
    for (const std::string& name : names()) EXPECT_THAT(name, StartsWith("shop.rodway"));
}

/// A shop file that the first version of the program made: the demo's three builds.
class OldShopFile : public ShopTest {
  protected:
    void SetUp() override {
        path_ = in_folder("shop.rodway");
        write_bytes(path_,
                    bytes_of(std::string(RODWAY_TEST_DATA) + "/shop_files/version-1.rodway"));
    }

    /// What an old version knew: every record of every kind by its columns of then, and the
    /// history.
    [[nodiscard]] static std::string as_version(int version, const std::string& path) {
        const std::string then = std::string(RODWAY_TEST_DATA) + "/shop_files/version-" +
                                 std::to_string(version) + ".rodway";
        std::string all;
        for (const char* table : {"acts", "edits"})
            all += table + rows_of(path, "SELECT * FROM " + std::string(table) + " ORDER BY 1, 2");
        for (const RecordTable& table : record_tables()) {
            const std::string name(table.table);
            const std::string columns =
                ask(then, "SELECT group_concat(name, ', ') FROM pragma_table_info('" + name + "')");
            if (columns == "NULL") continue; // came later
            all += name + rows_of(path, "SELECT " + columns + " FROM " + name + " ORDER BY 1");
        }
        return all;
    }

    /// What version 1 knew of its records and its history, one line a row.
    [[nodiscard]] std::string as_version_1() const {
        std::string all;
        for (const char* columns :
             {"id, name, customer, engine, promised, note, archived FROM builds",
              "id, build_id, name FROM set_ups", "set_up_id, path, text, unit FROM set_up_fields",
              "id, build_id, ordinal, title, caution FROM stages",
              "id, stage_id, ordinal, title, ticked_by, ticked_at FROM steps",
              "id, build_id, set_up_id, quantity, position, text, unit, status, taken_by, taken_at"
              " FROM readings",
              "number, who, when_utc, undoes FROM acts",
              "act, ordinal, record_kind, record_id, field, before, after FROM edits"}) {
            all += rows_of(path_, std::string("SELECT ") + columns + " ORDER BY 1, 2");
        }
        return all;
    }

    std::string path_;
};

TEST_F(OldShopFile, OfVersion1KeepsEveryRecordAndEveryEdit) {
    const std::string before = as_version_1();
    ASSERT_THAT(before, HasSubstr("Merrow six"));
    ASSERT_THAT(before, HasSubstr(".002-.006"));
    {
        ShopFile shop = take(ShopFile::open(path_));
        ASSERT_TRUE(shop.backup().has_value());
        EXPECT_THAT(*shop.backup(), HasSubstr("backup-v1-"));
        EXPECT_EQ(bytes_of(*shop.backup()).size(),
                  bytes_of(std::string(RODWAY_TEST_DATA) + "/shop_files/version-1.rodway").size());
        EXPECT_THAT(take(shop.check()).findings, ::testing::IsEmpty());
        EXPECT_EQ(ask(path_, "PRAGMA user_version"), std::to_string(own_migrations().size()));
    }
    EXPECT_EQ(as_version_1(), before);
}

TEST_F(OldShopFile, OfVersion1IsSealedFromItsFirstActAndGoesOn) {
    ShopFile shop = take(ShopFile::open(path_));
    for (std::int64_t build = 1; build <= 3; ++build) {
        const auto acts = take(history_of_build(shop, build));
        ASSERT_FALSE(acts.empty());
        // Steps belong to a build by way of their stage: ticks are in the build's history.
        EXPECT_EQ(acts.back().edits.back().record.kind,
                  build == 1 ? RecordKind::reading : RecordKind::step);
        EXPECT_EQ(take(history_head(shop, build)).size(), 64U);
        EXPECT_EQ(take(act_of_head(shop, build, take(history_head(shop, build)))),
                  acts.back().number);
    }
    EXPECT_EQ(ask(path_, "SELECT count(*) FROM edits WHERE build_id IS NULL"), "0");
    const auto last = take(last_act(shop));
    take(undo(shop, last, "Dee", noon));
    EXPECT_THAT(take(shop.check()).findings, ::testing::IsEmpty());
}

TEST_F(OldShopFile, OfVersion3KeepsEveryRecordEveryEditAndTheHeadsOfItsHistories) {
    write_bytes(path_, bytes_of(std::string(RODWAY_TEST_DATA) + "/shop_files/version-3.rodway"));
    const std::string before = as_version(3, path_);
    ASSERT_THAT(before, HasSubstr("Merrow six"));
    const std::string heads = "SELECT build_id, act, hex(digest) FROM history_links ORDER BY 1, 2";
    const std::string sealed = rows_of(path_, heads);
    ASSERT_FALSE(sealed.empty());
    ShopFile shop = take(ShopFile::open(path_));
    EXPECT_EQ(as_version(3, path_), before);
    EXPECT_EQ(rows_of(path_, heads), sealed);
    EXPECT_THAT(take(shop.check()).findings, ::testing::IsEmpty());
    ShopPlan plan;
    plan.id = 1;
    plan.word = "marine_pair";
    plan.title = "Marine pair";
    plan.content = "{}";
    take(apply(shop, edits_to_create(plan), "Dee", noon));
    EXPECT_EQ(take(load_records<ShopPlan>(shop, shop_wide)).size(), 1U);
}

TEST_F(OldShopFile, OfVersion4KeepsEverythingAndTakesAKnownEngine) {
    write_bytes(path_, bytes_of(std::string(RODWAY_TEST_DATA) + "/shop_files/version-4.rodway"));
    const std::string before = as_version(4, path_);
    ASSERT_THAT(before, HasSubstr("Merrow six"));
    const std::string heads = "SELECT build_id, act, hex(digest) FROM history_links ORDER BY 1, 2";
    const std::string sealed = rows_of(path_, heads);
    ShopFile shop = take(ShopFile::open(path_));
    ASSERT_TRUE(shop.backup().has_value());
    EXPECT_THAT(*shop.backup(), HasSubstr("backup-v4-"));
    EXPECT_EQ(as_version(4, path_), before);
    EXPECT_EQ(rows_of(path_, heads), sealed);
    KnownEngine engine;
    engine.id = 1;
    engine.name = "Merrow 261 six";
    engine.measured_on = "2026-11-30";
    engine.fields["engine/bore"] = {"3.760", "in"};
    take(apply(shop, edits_to_create(engine), "Dee", noon));
    const auto kept = take(load_records<KnownEngine>(shop, shop_wide));
    ASSERT_EQ(kept.size(), 1U);
    EXPECT_EQ(kept.front().fields, engine.fields);
    EXPECT_EQ(kept.front().version, 1);
    EXPECT_THAT(take(shop.check()).findings, ::testing::IsEmpty());
}

} // namespace
} // namespace rodway
