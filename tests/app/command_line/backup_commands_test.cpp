#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include "app/words/backup_words.h"
#include "app/work/backup_keeper.h"
#include "db/backups.h"
#include "db/build_store.h"
#include "tests/app/program.h"

namespace rodway::tests {
namespace {

/// A folder with a demo shop in it.
class BackupCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = path("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    [[nodiscard]] static QJsonObject answer(const QStringList& arguments, int exit_code = 0) {
        const Ran ran = run(arguments + QStringList{"--json"});
        EXPECT_EQ(ran.exit_code, exit_code) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    [[nodiscard]] QString builds() const {
        const Ran ran = run({"builds", shop_});
        EXPECT_EQ(ran.exit_code, 0);
        return ran.output;
    }
    void add_build(const QString& name) const {
        ASSERT_EQ(
            run({"add-build", shop_, name, "--customer", "R. Marsh", "--engine", "454"}).exit_code,
            0);
    }

    QTemporaryDir folder_;
    QString shop_;
};

TEST_F(BackupCommandsTest, BackUpListAndRestoreGoRound) {
    const QString before = builds();
    const QJsonObject made = answer({"back-up", shop_});
    EXPECT_EQ(made["format"], "rodway-back-up");
    EXPECT_TRUE(QFileInfo::exists(made["path"].toString()));
    EXPECT_EQ(made["kind"], "backup");
    EXPECT_GT(made["act"].toInt(), 0);
    EXPECT_EQ(made["removed"].toArray().size(), 0);
    add_build("Later one");
    ASSERT_NE(builds(), before);

    const QJsonObject restored = answer({"restore", made["path"].toString(), shop_});
    EXPECT_EQ(restored["act"], made["act"]);
    EXPECT_EQ(builds(), before);
    ASSERT_EQ(restored["kept"].toArray().size(), 1);

    const QJsonArray all = answer({"backups", shop_})["backups"].toArray();
    ASSERT_EQ(all.size(), 2);
    EXPECT_EQ(all[0].toObject()["path"], made["path"]);
    EXPECT_EQ(all[0].toObject()["made_utc"], made["made_utc"]);
    EXPECT_EQ(all[1].toObject()["kind"], "before_restore");
    EXPECT_EQ(all[1].toObject()["path"], restored["kept"].toArray()[0]);
    // And back to what was replaced.
    ASSERT_EQ(run({"restore", restored["kept"].toArray()[0].toString(), shop_}).exit_code, 0);
    EXPECT_TRUE(builds().contains("Later one"));
    EXPECT_EQ(run({"check", shop_}).exit_code, 0);
}

TEST_F(BackupCommandsTest, AShopLostWithItsDiskComesBackFromTheSecond) {
    ASSERT_TRUE(QDir(folder_.path()).mkdir("second"));
    const QString before = builds();
    const QJsonObject made = answer({"back-up", shop_, "--to", path("second")});
    EXPECT_TRUE(made["path"].toString().contains("/second/shop.backups/"));
    ASSERT_TRUE(QFile::remove(shop_));
    const QJsonArray all =
        answer({"backups", shop_, "--from", path("second")})["backups"].toArray();
    ASSERT_EQ(all.size(), 1);
    const Ran ran = run({"restore", all[0].toObject()["path"].toString(), shop_});
    EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    EXPECT_EQ(builds(), before);
}

TEST_F(BackupCommandsTest, RefusalsNameWhatIsWrongAndWhatToDo) {
    const Ran unplugged = run({"back-up", shop_, "--to", path("unplugged")});
    EXPECT_EQ(unplugged.exit_code, 6);
    EXPECT_TRUE(unplugged.complaints.contains(path("unplugged")));
    EXPECT_EQ(run({"backups", path("none/shop.rodway")}).exit_code, 6);
    const QString made = answer({"back-up", shop_})["path"].toString();
    EXPECT_EQ(run({"restore", path("no-such.rodway"), shop_}).exit_code, 6);
    QFile notes(path("notes.txt"));
    ASSERT_TRUE(notes.open(QIODevice::WriteOnly));
    notes.write("mine");
    notes.close();
    EXPECT_EQ(run({"restore", path("notes.txt"), shop_}).exit_code, 4);
    EXPECT_EQ(run({"restore", made, path("notes.txt")}).exit_code, 4);
    auto opened = ShopFile::open(shop_.toStdString());
    ASSERT_TRUE(opened.ok());
    const Ran in_use = run({"restore", made, shop_});
    EXPECT_EQ(in_use.exit_code, 6);
    EXPECT_TRUE(in_use.complaints.contains("Close it")) << in_use.complaints.toStdString();
}

TEST_F(BackupCommandsTest, TheKeeperMakesWhatIsDueAtBothPlacesAndTellsWhatFails) {
    ASSERT_TRUE(QDir(folder_.path()).mkdir("second"));
    const std::string shop = shop_.toStdString();
    const std::string second = path("second").toStdString();
    const auto backups = [&](const std::string& place) {
        return *backups_in(backups_folder(shop, place));
    };
    const auto keep_at = [&](const std::string& now, const std::string& place) {
        return keep_backed_up(shop, place, now, backup_interval);
    };
    const BackupNews first = keep_at("2030-03-01T12:00:00Z", second);
    EXPECT_EQ(first.own.newest, backup_time_from("2030-03-01T12:00:00Z"));
    EXPECT_FALSE(first.own.failure.has_value());
    ASSERT_TRUE(first.second.has_value());
    EXPECT_EQ(backups({}).size(), 1U);
    EXPECT_EQ(backups(second).size(), 1U);
    // Nothing done: not due, and not overdue however long.
    EXPECT_FALSE(keep_at("2030-06-01T12:00:00Z", second).own.overdue);
    EXPECT_EQ(backups({}).size(), 1U);
    add_build("Later one");
    static_cast<void>(keep_at("2030-03-01T13:00:00Z", {}));
    EXPECT_EQ(backups({}).size(), 1U) << "the newest is an hour old";
    static_cast<void>(keep_at("2030-03-02T12:00:00Z", {}));
    EXPECT_EQ(backups({}).size(), 2U);
    EXPECT_EQ(backups(second).size(), 1U);
    ASSERT_TRUE(QDir(path("second")).removeRecursively());
    const BackupNews unplugged = keep_at("2030-03-20T12:00:00Z", second);
    ASSERT_TRUE(unplugged.second.has_value());
    ASSERT_TRUE(unplugged.second->failure.has_value());
    EXPECT_EQ(unplugged.second->failure->field.find(second), 0U);
    EXPECT_FALSE(unplugged.own.failure.has_value());
}

TEST(BackupWords, TellTheAgeByTheCalendar) {
    const auto local = [](int day, int hour) {
        const QDateTime time(QDate(2026, 3, day), QTime(hour, 5));
        return BackupTime(std::chrono::seconds(time.toSecsSinceEpoch()));
    };
    const BackupTime now = local(10, 18);
    EXPECT_EQ(words::backup_age(local(10, 14), now), "today 14:05");
    EXPECT_EQ(words::backup_age(local(9, 23), now), "yesterday 23:05");
    EXPECT_EQ(words::backup_age(local(7, 23), now), "3 days ago");
    EXPECT_EQ(words::backup_age(std::nullopt, now), "none yet");
    EXPECT_TRUE(words::backup_age(local(20, 1), now).contains("2026-03-20"));
    EXPECT_EQ(words::last_backup(local(10, 14), std::nullopt, now), "Last backup: today 14:05");
    EXPECT_EQ(words::last_backup(local(10, 14), std::optional(std::optional(local(7, 1))), now),
              QString::fromUtf8("Last backup: today 14:05 · on the second disk: 3 days ago"));
}

} // namespace
} // namespace rodway::tests
