#include <sched.h>
#include <sys/mount.h>
#include <sys/stat.h>

#include <QDir>

#include "db/attachments.h"
#include "db/build_store.h"
#include "db/connection.h"
#include "db/edits.h"
#include "db/history.h"
#include "db/migrations.h"
#include "db/search.h"
#include "tests/db/child_process.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;

/// What a child answers for a broken promise, and for a kept one.
constexpr int kept = 0;
constexpr int not_opened = 50;

class LookingTest : public ShopTest {
  protected:
    void SetUp() override {
        for (const char* name : {"bench", "temporary"}) {
            ASSERT_TRUE(QDir(folder_.path()).mkdir(name));
            mode(in_folder(name), 0777);
        }
        mode(folder_.path().toStdString(), 0755);
        qputenv("TMPDIR", QByteArray::fromStdString(in_folder("temporary")));
        ShopFile shop = new_shop("bench/shop.rodway");
        take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
    }
    void TearDown() override {
        qunsetenv("TMPDIR");
        mode(in_folder("bench"), 0755);
    }

    static void mode(const std::string& path, mode_t mode) {
        ASSERT_EQ(::chmod(path.c_str(), mode), 0);
    }
    std::string path() const { return in_folder("bench/shop.rodway"); }
    QStringList beside() const {
        return QDir(QString::fromStdString(in_folder("bench")))
            .entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot);
    }
    QStringList temporary() const {
        return QDir(QString::fromStdString(in_folder("temporary")))
            .entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot);
    }

    /// Somebody who may not write looks: `look` answers.
    static int look(const std::string& path, const std::function<int(ShopFile&)>& look) {
        return in_child([&] {
            become_plain_user();
            auto opened = ShopFile::open_to_look(path);
            if (!opened) return not_opened + static_cast<int>(opened.error().code);
            ShopFile shop = std::move(opened).value();
            return look(shop);
        });
    }

    /// 0 if all is shown, and an edit refused without a trace.
    static int shows_all_and_refuses(ShopFile& shop, LookOnly::Reason reason, const char* name) {
        if (!shop.look_only() || shop.look_only()->reason != reason) return 1;
        if (take(load_build(shop, 1)).name != name) return 2;
        if (take(search(shop, name, 5)).found.empty()) return 3;
        if (!take(shop.check()).findings.empty()) return 4;
        const auto edit = Edit{{RecordKind::build, 1}, "name", name, "Green pickup"};
        const auto act = apply(shop, {edit}, "Dee", noon);
        if (act || act.error().code != ErrorCode::cannot_write) return 5;
        if (act.error().value != "read_only" || act.error().field != shop.path()) return 6;
        const auto created = apply(shop, edits_to_create(sample_build(2)), "Dee", noon);
        if (created || created.error().value != "read_only") return 7;
        if (undo(shop, 1, "Dee", noon) || rebuild_search(shop)) return 8;
        if (take(load_build(shop, 1)).name != name) return 9;
        if (!shop.still_there()) return 10;
        return kept;
    }
};

TEST_F(LookingTest, AShopThatMayBeWrittenOpensAsEver) {
    ShopFile shop = take(ShopFile::open_to_look(path()));
    EXPECT_FALSE(shop.look_only());
    take(apply(shop, edits_to_create(sample_build(2)), "Dee", noon));
}

TEST_F(LookingTest, AFolderThatMayNotBeWrittenShowsAllAndStaysAsItIs) {
    const std::string bytes = bytes_of(path());
    mode(path(), 0666);
    mode(in_folder("bench"), 0555);
    EXPECT_EQ(look(path(),
                   [](ShopFile& shop) {
                       return shows_all_and_refuses(shop, LookOnly::Reason::folder, "Blue pickup");
                   }),
              kept);
    EXPECT_EQ(bytes_of(path()), bytes);
    EXPECT_EQ(beside(), QStringList("shop.rodway"));
    EXPECT_THAT(temporary(), IsEmpty()); // the copy is gone
}

TEST_F(LookingTest, AFileThatMayNotBeWrittenShowsAllAndGetsNothingBesideIt) {
    // SQLite's own files would be the looker's, and the owner couldn't write them.
    const std::string bytes = bytes_of(path());
    mode(path(), 0444);
    const std::string shop_path = path();
    const std::string picture = in_folder("picture.jpg");
    write_bytes(picture, "a picture");
    mode(picture, 0444);
    EXPECT_EQ(look(path(),
                   [&](ShopFile& shop) {
                       const auto photo = keep(shop, picture);
                       if (photo || photo.error().code != ErrorCode::cannot_write) return 20;
                       if (QDir(QString::fromStdString(in_folder("bench"))).count() > 3) return 21;
                       return shows_all_and_refuses(shop, LookOnly::Reason::file, "Blue pickup");
                   }),
              kept);
    EXPECT_EQ(bytes_of(path()), bytes);
    EXPECT_EQ(beside(), QStringList("shop.rodway"));
    EXPECT_THAT(temporary(), IsEmpty());
}

TEST_F(LookingTest, SeesWhatSomebodyElseWritesMeanwhile) {
    if (::getuid() != 0) GTEST_SKIP() << "needs two users";
    mode(in_folder("bench"), 0755); // the administrator's, who writes
    const std::string shop_path = path();
    Signal written;
    Signal looked;
    Signal written_again;
    const pid_t writer = start_child([&] {
        ShopFile shop = take(ShopFile::open(shop_path));
        const RecordRef build{RecordKind::build, 1};
        take(apply(shop, {{build, "name", "Blue pickup", "Red pickup"}}, "Dee", noon));
        written.tell();
        looked.wait();
        take(apply(shop, {{build, "name", "Red pickup", "Green pickup"}}, "Dee", noon));
        written_again.tell();
        looked.wait();
        return kept;
    });
    const int answer = in_child([&] {
        written.wait();
        become_plain_user();
        ShopFile shop = take(ShopFile::open_to_look(shop_path));
        if (!shop.look_only() || !shop.look_only()->follows) return 1;
        if (take(load_build(shop, 1)).name != "Red pickup") return 2;
        looked.tell();
        written_again.wait();
        if (take(load_build(shop, 1)).name != "Green pickup") return 3;
        if (apply(shop, edits_to_create(sample_build(2)), "Dee", noon)) return 4;
        looked.tell();
        return kept;
    });
    if (answer != kept) ::kill(writer, SIGKILL); // it would wait for ever
    EXPECT_EQ(answer_of(writer), kept);
    ASSERT_EQ(answer, kept);
    ShopFile shop = take(ShopFile::open(shop_path));
    EXPECT_EQ(take(load_build(shop, 1)).name, "Green pickup");
    EXPECT_THAT(take(shop.check()).findings, IsEmpty());
}

/// Leaves a log with an act that the file itself doesn't have yet.
void write_and_die(const std::string& path) {
    const int answer = in_child([&] {
        ShopFile shop = take(ShopFile::open(path));
        const RecordRef build{RecordKind::build, 1};
        take(apply(shop, {{build, "name", "Blue pickup", "Red pickup"}}, "Dee", noon));
        ::_exit(kept);
        return kept;
    });
    ASSERT_EQ(answer, kept);
    ASSERT_GT(QFileInfo(QString::fromStdString(path + "-wal")).size(), 0);
}

TEST_F(LookingTest, ShowsTheLastActsOfALogThatNobodyPlaysIn) {
    for (const bool with_shm : {true, false}) {
        SCOPED_TRACE(with_shm);
        if (!with_shm) {
            ASSERT_TRUE(QFile::remove(QString::fromStdString(path() + "-shm")));
        } else {
            write_and_die(path());
        }
        const std::string bytes = bytes_of(path()) + bytes_of(path() + "-wal");
        const QStringList there = beside();
        mode(path(), 0444);
        mode(in_folder("bench"), 0555);
        EXPECT_EQ(look(path(),
                       [](ShopFile& shop) {
                           return shows_all_and_refuses(shop, LookOnly::Reason::file, "Red pickup");
                       }),
                  kept);
        EXPECT_EQ(bytes_of(path()) + bytes_of(path() + "-wal"), bytes);
        EXPECT_EQ(beside(), there);
        EXPECT_THAT(temporary(), IsEmpty());
        mode(in_folder("bench"), 0755);
    }
}

TEST_F(LookingTest, AnOlderShopIsBroughtToThisVersionInACopyOnly) {
    const QString old =
        QString::fromStdString(std::string(RODWAY_TEST_DATA) + "/shop_files/version-1.rodway");
    ASSERT_TRUE(QFile::remove(QString::fromStdString(path())));
    ASSERT_TRUE(QFile::copy(old, QString::fromStdString(path())));
    const std::string bytes = bytes_of(path());
    mode(path(), 0444);
    mode(in_folder("bench"), 0555);
    EXPECT_EQ(look(path(),
                   [](ShopFile& shop) {
                       const auto version = take(schema_version(shop.connection()));
                       if (version != own_migrations().back().version) return 1;
                       return take(load_builds(shop)).empty() ? 2 : kept;
                   }),
              kept);
    EXPECT_EQ(bytes_of(path()), bytes);
    EXPECT_EQ(beside(), QStringList("shop.rodway"));
    EXPECT_THAT(temporary(), IsEmpty());
}

TEST_F(LookingTest, WhatIsNoSoundShopOfOursIsRefusedAsEver) {
    const auto answer_for = [&](const std::string& bytes) {
        mode(path(), 0666);
        write_bytes(path(), bytes);
        mode(path(), 0444);
        return look(path(), [](ShopFile&) { return kept; });
    };
    const std::string whole = bytes_of(path());
    const auto refused = [](ErrorCode code) { return not_opened + static_cast<int>(code); };
    EXPECT_EQ(answer_for("not a shop at all, but a text of some length"),
              refused(ErrorCode::foreign_file));
    EXPECT_EQ(answer_for(whole.substr(0, whole.size() - 100)), refused(ErrorCode::damaged_file));
    std::string newer = whole;
    newer[63] = 100; // the header's user version
    EXPECT_EQ(answer_for(newer), refused(ErrorCode::newer_version));
    mode(path(), 0000);
    EXPECT_EQ(look(path(), [](ShopFile&) { return kept; }), refused(ErrorCode::cannot_read));
    EXPECT_THAT(temporary(), IsEmpty());
}

/// A disk of its own, seen by this process and its children only.
class ReadOnlyDisk : public LookingTest {
  protected:
    /// Puts the shop, and what lies beside it, onto a disk that nobody can write; then `look`s.
    int on_disk(const std::function<int(ShopFile&)>& look) {
        const std::string disk = in_folder("disk");
        if (!QDir(folder_.path()).mkdir("disk")) return -1;
        return in_child([&] {
            if (::unshare(CLONE_NEWNS) != 0 ||
                ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0 ||
                ::mount("shop", disk.c_str(), "tmpfs", 0, nullptr) != 0) {
                return no_disk;
            }
            for (const QString& name : beside()) {
                QFile::copy(QString::fromStdString(in_folder("bench/")) + name,
                            QString::fromStdString(disk + '/') + name);
            }
            if (::mount(nullptr, disk.c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) != 0) {
                return no_disk;
            }
            // As the administrator: nobody can write here.
            auto opened = ShopFile::open_to_look(disk + "/shop.rodway");
            if (!opened) return not_opened + static_cast<int>(opened.error().code);
            ShopFile shop = std::move(opened).value();
            return look(shop);
        });
    }
    static constexpr int no_disk = 90;
};

TEST_F(ReadOnlyDisk, ShowsAllWithoutACopy) {
    const QString copies = QString::fromStdString(in_folder("temporary"));
    const int answer = on_disk([&](ShopFile& shop) {
        if (!QDir(copies).isEmpty()) return 30;
        return shows_all_and_refuses(shop, LookOnly::Reason::disk, "Blue pickup");
    });
    if (answer == no_disk) GTEST_SKIP() << "no disk can be mounted here";
    EXPECT_EQ(answer, kept);
}

TEST_F(ReadOnlyDisk, ShowsWhatIsStillInTheLog) {
    write_and_die(path());
    ASSERT_TRUE(QFile::remove(QString::fromStdString(path() + "-shm")));
    const int answer = on_disk([](ShopFile& shop) {
        return shows_all_and_refuses(shop, LookOnly::Reason::disk, "Red pickup");
    });
    if (answer == no_disk) GTEST_SKIP() << "no disk can be mounted here";
    EXPECT_EQ(answer, kept);
    EXPECT_THAT(temporary(), IsEmpty());
}

} // namespace
} // namespace rodway
