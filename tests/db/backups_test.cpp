#include "db/backups.h"

#include <sys/stat.h>

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <atomic>
#include <random>
#include <thread>

#include "db/attachments.h"
#include "db/build_store.h"
#include "db/photo_store.h"
#include "db/stage_store.h"
#include "tests/db/child_process.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

std::string digest_text(char digit) {
    return std::string(64, digit);
}

class BackupsTest : public ShopTest {
  protected:
    [[nodiscard]] std::vector<std::string> names_in(const std::string& folder) const {
        std::vector<std::string> found;
        const auto all = QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot;
        const QDir dir(QString::fromStdString(in_folder(folder)));
        for (const QString& name : dir.entryList(all, QDir::Name)) {
            found.push_back(name.toStdString());
        }
        return found;
    }
    [[nodiscard]] std::string place(const std::string& name) const {
        QDir(folder_.path()).mkpath(QString::fromStdString(name));
        return in_folder(name);
    }
    /// A shop with one act, closed again.
    void make_shop() const {
        ShopFile shop = new_shop();
        take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
    }
    [[nodiscard]] ShopFile open_shop() const {
        return take(ShopFile::open(in_folder("shop.rodway")));
    }
    static void add_build(ShopFile& shop, std::int64_t id) {
        Build build = sample_build(id);
        build.note = std::string(3000, 'n');
        take(apply(shop, edits_to_create(build), "Dee", noon));
    }
    /// Keeps a photo and the record of it.
    [[nodiscard]] StoredFile add_photo(ShopFile& shop, std::int64_t id,
                                       const std::string& bytes) const {
        write_bytes(in_folder("camera.jpg"), bytes);
        const StoredFile stored = take(keep(shop, in_folder("camera.jpg")));
        QFile::remove(QString::fromStdString(in_folder("camera.jpg")));
        Photo photo = sample_photo(id, 1);
        photo.digest = stored.digest;
        take(apply(shop, edits_to_create(photo), "Dee", noon));
        return stored;
    }
};

TEST_F(BackupsTest, HoldAllThatTheLogHoldsWithItsHistory) {
    ShopFile shop = new_shop();
    take(apply(shop, edits_of_whole_build(), "Dee", noon));
    take(apply(shop, {Edit{{RecordKind::build, 1}, "name", "Blue pickup", "Blue truck"}}, "Kim",
               "2026-03-01T12:30:00Z"));
    ASSERT_GT(QFileInfo(QString::fromStdString(shop.path() + "-wal")).size(), 0)
        << "nothing would be shown of what is only in the log";
    const BackupMade made = take(back_up(shop, {}, "2026-03-01T13:05:09Z"));
    EXPECT_EQ(made.backup.path, QFileInfo(folder_.path()).canonicalFilePath().toStdString() +
                                    "/shop.backups/shop.backup-2026-03-01T130509Z.rodway");
    EXPECT_EQ(dump_with_history(made.backup.path), dump_with_history(shop.path()));
    EXPECT_EQ(ask(made.backup.path, "SELECT name FROM builds"), "Blue truck");
    EXPECT_EQ(made.backup.history, (HistoryMark{2, "2026-03-01T12:30:00Z"}));
    EXPECT_EQ(made.backup.bytes, static_cast<std::int64_t>(bytes_of(made.backup.path).size()));
    EXPECT_EQ(made.photos_copied, 0);
    EXPECT_THAT(made.photos_missing, ElementsAre(photo_digest)) << "the sample has no file";
    EXPECT_THAT(names_in("shop.backups"), ElementsAre("shop.backup-2026-03-01T130509Z.rodway"));
    ShopFile opened = take(ShopFile::open(made.backup.path));
    EXPECT_EQ(take(opened.check()).findings.size(), 1U); // the same missing photo
}

TEST_F(BackupsTest, NeverReplaceOneAnother) {
    make_shop();
    ShopFile shop = open_shop();
    const std::string first = take(back_up(shop, {}, noon)).backup.path;
    const std::string bytes = bytes_of(first);
    add_build(shop, 2);
    const Backup second = take(back_up(shop, {}, noon)).backup;
    EXPECT_THAT(second.path, EndsWith("T120000Z-2.rodway"));
    EXPECT_EQ(bytes_of(first), bytes);
    EXPECT_EQ(ask(second.path, "SELECT count(*) FROM builds"), "2");
}

TEST_F(BackupsTest, AreWholeAsOfOneActWhileAnotherWriterWrites) {
    make_shop();
    const std::string path = in_folder("shop.rodway");
    std::atomic<bool> stop{false};
    std::atomic<std::int64_t> answered{1};
    std::string trouble;
    std::thread writer([&] {
        try {
            ShopFile shop = take(ShopFile::open(path));
            for (std::int64_t id = 2; !stop; ++id) {
                auto edits = joined(edits_to_create(sample_build(id)),
                                    edits_to_create(sample_stage(id, id)));
                for (int i = 0; i < 20; ++i) {
                    edits =
                        joined(std::move(edits), edits_to_create(sample_step(id * 100 + i, id)));
                }
                answered = take(apply(shop, edits, "Kim", noon)).number;
            }
        } catch (const std::exception& failure) {
            trouble = failure.what();
        }
    });
    std::vector<Backup> made;
    std::vector<std::int64_t> before;
    {
        ShopFile shop = open_shop();
        while (made.size() < 12) {
            while (answered <= (before.empty() ? 1 : before.back())) std::this_thread::yield();
            before.push_back(answered);
            made.push_back(take(back_up(shop, {}, noon)).backup);
        }
    }
    stop = true;
    writer.join();
    EXPECT_EQ(trouble, "");
    for (std::size_t i = 0; i < made.size(); ++i) {
        ShopFile backup = take(ShopFile::open(made[i].path));
        EXPECT_THAT(take(backup.check()).findings, IsEmpty());
        const std::int64_t act = take(last_act(backup));
        EXPECT_EQ(made[i].history->act, act);
        EXPECT_GE(act, before[i]) << "lacks an act that was answered before it was begun";
        EXPECT_EQ(ask(made[i].path, "SELECT count(*) FROM builds"), std::to_string(act));
        EXPECT_EQ(ask(made[i].path, "SELECT count(*) FROM steps"), std::to_string(20 * (act - 1)));
    }
}

TEST_F(BackupsTest, ToAnotherPlaceTakeEachPhotoOnce) {
    make_shop();
    ShopFile shop = open_shop();
    const StoredFile a = add_photo(shop, 1, "first picture");
    const StoredFile b = add_photo(shop, 2, std::string(700'000, 'b'));
    const std::string second = place("second disk");
    const BackupMade made = take(back_up(shop, second, noon));
    EXPECT_EQ(made.photos_copied, 2);
    EXPECT_THAT(made.photos_missing, IsEmpty());
    EXPECT_THAT(names_in("second disk"), ElementsAre("shop.backups", "shop.photos"));
    {
        ShopFile opened = take(ShopFile::open(made.backup.path));
        const auto kept = path_of(opened, a.digest);
        ASSERT_TRUE(kept.has_value());
        EXPECT_THAT(*kept, ::testing::HasSubstr("/second disk/shop.photos/"));
        EXPECT_EQ(bytes_of(*kept), "first picture");
        EXPECT_EQ(bytes_of(path_of(opened, b.digest).value_or("")), std::string(700'000, 'b'));
        EXPECT_THAT(take(opened.check()).findings, IsEmpty());
    }
    // Only what is new travels again; a kept photo that was touched there tells a copy that was
    // not.
    const std::string there = *path_in(in_folder("second disk/shop.photos"), a.digest);
    write_bytes(there, "touched");
    static_cast<void>(add_photo(shop, 3, "third picture"));
    EXPECT_EQ(take(back_up(shop, second, noon)).photos_copied, 1);
    EXPECT_EQ(bytes_of(there), "touched");
}

TEST_F(BackupsTest, SayWhichPhotosTheyLackAndCopyNoAlteredOne) {
    make_shop();
    ShopFile shop = open_shop();
    const StoredFile a = add_photo(shop, 1, "first picture");
    const StoredFile b = add_photo(shop, 2, "second picture");
    write_bytes(a.path, "altered");
    const BackupMade made = take(back_up(shop, place("second"), noon));
    EXPECT_EQ(made.photos_copied, 1);
    EXPECT_THAT(made.photos_missing, ElementsAre(a.digest));
    EXPECT_FALSE(path_in(in_folder("second/shop.photos"), a.digest).has_value());
    QFile::remove(QString::fromStdString(b.path));
    EXPECT_THAT(take(back_up(shop, {}, noon)).photos_missing, ElementsAre(b.digest));
}

TEST_F(BackupsTest, FindTheShopsPhotosWhenOpenedWhereTheyLie) {
    make_shop();
    ShopFile shop = open_shop();
    const StoredFile a = add_photo(shop, 1, "first picture");
    const std::string path = take(back_up(shop, {}, noon)).backup.path;
    {
        const ShopFile opened = take(ShopFile::open(path));
        EXPECT_EQ(path_of(opened, a.digest), a.path);
    }
    // A copy that a migration made lies beside the shop; one elsewhere has photos of its own.
    const QString copy = QString::fromStdString(in_folder("shop.backup-v1-2026-03-01.rodway"));
    ASSERT_TRUE(QFile::copy(QString::fromStdString(path), copy));
    EXPECT_EQ(path_of(take(ShopFile::open(copy.toStdString())), a.digest), a.path);
    ASSERT_TRUE(QFile::copy(QString::fromStdString(path),
                            QString::fromStdString(in_folder("other.rodway"))));
    EXPECT_EQ(path_of(take(ShopFile::open(in_folder("other.rodway"))), a.digest), std::nullopt);
    EXPECT_EQ(photos_folder("/shops/a.backup-b.rodway"), "/shops/a.backup-b.photos");
    EXPECT_EQ(photos_folder("/shops/a.backups/b.rodway"), "/shops/a.backups/b.photos");
}

TEST_F(BackupsTest, NameAPlaceThatIsNotThereAndLeaveNothing) {
    make_shop();
    ShopFile shop = open_shop();
    const Error gone = refusal(back_up(shop, in_folder("unplugged"), noon));
    EXPECT_EQ(gone.code, ErrorCode::cannot_write);
    EXPECT_EQ(gone.field, in_folder("unplugged"));
    EXPECT_EQ(gone.value, "no_folder");
    EXPECT_FALSE(QFileInfo::exists(QString::fromStdString(in_folder("unplugged"))));
    write_bytes(in_folder("shop.backups"), "a file stands in the way");
    const Error taken = refusal(back_up(shop, {}, noon));
    EXPECT_EQ(taken.code, ErrorCode::cannot_write);
    EXPECT_THAT(taken.field, EndsWith("/shop.backups"));
    EXPECT_EQ(bytes_of(in_folder("shop.backups")), "a file stands in the way");
}

TEST_F(BackupsTest, NameAFolderThatMayNotBeWrittenAndLeaveNothing) {
    make_shop();
    const std::string folder = place("second/shop.backups");
    ::chmod(folder_.path().toStdString().c_str(), 0777);
    ::chmod(in_folder("shop.rodway").c_str(), 0666);
    ::chmod(folder.c_str(), 0555);
    const int answer = in_child([&] {
        become_plain_user();
        ShopFile shop = open_shop();
        const Error error = refusal(back_up(shop, in_folder("second"), noon));
        return error.code == ErrorCode::cannot_write && error.field == folder &&
                       error.value == "no_permission"
                   ? 0
                   : 1;
    });
    EXPECT_EQ(answer, 0);
    EXPECT_THAT(names_in("second/shop.backups"), IsEmpty());
}

// The disk fills up at every page of the copy in turn, and within a photo.
TEST_F(BackupsTest, LeaveNothingHalfOnAFullDisk) {
    make_shop();
    unsigned long photo_bytes = 0;
    {
        ShopFile shop = open_shop();
        for (int id = 2; id < 12; ++id) add_build(shop, id);
        photo_bytes = static_cast<unsigned long>(add_photo(shop, 1, std::string(9000, 'p')).bytes);
    }
    tamper(in_folder("shop.rodway"), "VACUUM"); // a copy leaves free pages out
    const auto whole = bytes_of(in_folder("shop.rodway")).size();
    const std::string folder = in_folder("second/shop.backups");
    static_cast<void>(place("second"));
    const auto backed_up = [&](unsigned long limit) {
        return in_child([&] {
            ShopFile shop = open_shop();
            limit_file_size(limit);
            const auto made = back_up(shop, in_folder("second"), noon);
            if (made) return 0;
            return made.error().code == ErrorCode::cannot_write && !made.error().value.empty() &&
                           made.error().field.starts_with(in_folder("second"))
                       ? 1
                       : 2;
        });
    };
    int refused = 0;
    for (unsigned long limit = 0; limit < whole; limit += 4096) {
        ASSERT_EQ(backed_up(limit), 1) << limit;
        ASSERT_THAT(names_in("second/shop.backups"), IsEmpty()) << limit;
        ASSERT_FALSE(path_in(in_folder("second/shop.photos"), digest_text('a')).has_value());
        ++refused;
    }
    EXPECT_GT(refused, 20);
    EXPECT_GT(whole, photo_bytes);
    EXPECT_EQ(backed_up(whole), 0);
    const auto made = take(backups_in(folder));
    ASSERT_EQ(made.size(), 1U);
    EXPECT_EQ(dump_with_history(made[0].path), dump_with_history(in_folder("shop.rodway")));
}

TEST_F(BackupsTest, HaveTheirNameOnlyWhenWholeWheneverTheProgramIsKilled) {
    make_shop();
    {
        ShopFile shop = open_shop();
        for (int id = 2; id < 40; ++id) add_build(shop, id);
    }
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const std::string expected = dump_with_history(in_folder("shop.rodway"));
    for (int round = 0; round < 8; ++round) {
        Signal first_is_made;
        const pid_t child = start_child([&] {
            ShopFile shop = open_shop();
            take(back_up(shop, {}, noon));
            first_is_made.tell();
            for (;;) take(back_up(shop, {}, noon));
            return 0;
        });
        first_is_made.wait();
        std::this_thread::sleep_for(std::chrono::milliseconds(random() % 150));
        ::kill(child, SIGKILL);
        ASSERT_EQ(answer_of(child), -1);
    }
    const auto made = take(backups_in(in_folder("shop.backups")));
    EXPECT_GE(made.size(), 8U);
    for (const Backup& backup : made) {
        ASSERT_TRUE(backup.history.has_value()) << backup.path;
        ASSERT_EQ(dump_with_history(backup.path), expected) << backup.path;
    }
}

TEST_F(BackupsTest, AreListedOldestFirstWithWhatTheyAre) {
    make_shop();
    ShopFile shop = open_shop();
    const std::string folder = in_folder("shop.backups");
    EXPECT_THAT(take(backups_in(folder)), IsEmpty());
    EXPECT_EQ(refusal(backups_in(in_folder("unplugged/shop.backups"))).code,
              ErrorCode::cannot_read);
    const Backup late = take(back_up(shop, {}, "2026-03-02T12:00:00Z")).backup;
    const Backup early = take(back_up(shop, {}, "2026-03-01T12:00:00Z")).backup;
    std::vector<std::string> same;
    for (int i = 0; i < 11; ++i) {
        same.push_back(take(back_up(shop, {}, "2026-03-01T18:00:00Z")).backup.path);
    }
    const std::string broken = folder + "/shop.backup-2026-02-01T120000Z.rodway";
    write_bytes(broken, bytes_of(early.path).substr(0, 600));
    for (const char* name : {"/notes.txt", "/shop.rodway", "/shop.backup-v1-2026-03-01.rodway"}) {
        write_bytes(folder + name, "not ours");
    }
    QDir(QString::fromStdString(folder)).mkdir("shop.backup-2026-02-02T120000Z.rodway");
    const auto all = take(backups_in(folder));
    std::vector<std::string> paths;
    for (const Backup& backup : all) paths.push_back(backup.path);
    std::vector<std::string> wanted{broken, early.path};
    wanted.insert(wanted.end(), same.begin(), same.end());
    wanted.push_back(late.path);
    ASSERT_EQ(paths.size(), wanted.size());
    for (std::size_t i = 0; i < paths.size(); ++i) {
        EXPECT_EQ(QFileInfo(QString::fromStdString(paths[i])).fileName(),
                  QFileInfo(QString::fromStdString(wanted[i])).fileName());
        EXPECT_EQ(all[i].history.has_value(), i != 0) << "only the cut off one doesn't open";
    }
    EXPECT_EQ(all.back().history, (HistoryMark{1, noon}));
    EXPECT_EQ(all.back().bytes, late.bytes);
    EXPECT_EQ(all.back().name.made, *backup_time_from("2026-03-02T12:00:00Z"));
    EXPECT_EQ(all.back().origin, take(mark_of(shop)).origin);
}

TEST_F(BackupsTest, OfOneShopAreKnownFromAnothersOfTheSameName) {
    make_shop();
    ShopFile shop = open_shop();
    static_cast<void>(place("elsewhere"));
    ShopFile other = new_shop("elsewhere/shop.rodway");
    EXPECT_EQ(take(mark_of(other)).origin, "");
    Build build = sample_build(1);
    build.name = "Red coupe";
    take(apply(other, edits_to_create(build), "Dee", noon));
    const ShopMark mark = take(mark_of(shop));
    EXPECT_NE(take(mark_of(other)).origin, mark.origin);
    add_build(shop, 2);
    EXPECT_EQ(take(mark_of(shop)).origin, mark.origin);
    take(back_up(shop, place("second"), noon));
    take(back_up(other, place("second"), noon));
    const auto all = take(backups_in(in_folder("second/shop.backups")));
    ASSERT_EQ(all.size(), 2U);
    const auto marks = marks_of(all, mark.origin);
    ASSERT_EQ(marks.size(), 1U);
    EXPECT_EQ(marks[0].history, take(mark_of(shop)).history);
}

TEST_F(BackupsTest, AreThinnedAsTheScheduleSaysAndNothingElseIs) {
    make_shop();
    ShopFile shop = open_shop();
    const std::string folder = in_folder("shop.backups");
    const QString one = QString::fromStdString(take(back_up(shop, {}, noon)).backup.path);
    std::vector<BackupTime> times{*backup_time_from(noon)};
    std::vector<std::string> ours{QFileInfo(one).fileName().toStdString()};
    const auto copy_as = [&](const std::string& name) {
        ASSERT_TRUE(QFile::copy(one, QString::fromStdString(folder + "/" + name)));
    };
    for (int i = 1; i < 60; ++i) {
        times.push_back(*backup_time_from(noon) - std::chrono::hours(31 * i));
        ours.push_back(backup_file_name({"shop", BackupKind::dated, times.back(), 1}));
        copy_as(ours.back());
    }
    // What must stay whatever its date: other things, other shops', broken ones, a restore's, and
    // one that somebody has open.
    std::vector<std::string> others{"notes.txt",
                                    "shop.backup-v1-2020-01-01.rodway",
                                    "bench.backup-2020-01-02T120000Z.rodway",
                                    "shop.before-restore-2020-01-03T120000Z.rodway",
                                    "shop.damaged-2020-01-04T120000Z.rodway",
                                    "shop.backup-2020-01-05T120000Z.rodway",
                                    "shop.backup-2020-01-06T120000Z.rodway",
                                    "shop.backup-2020-01-07T120000Z.rodway"};
    for (const std::string& name : others) copy_as(name);
    copy_as("shop.backup-2020-01-08T120000Z.rodway"); // the month's last of the shop's own
    write_bytes(folder + "/" + others[5], bytes_of(one.toStdString()).substr(0, 600));
    tamper(folder + "/" + others[6], "DROP TRIGGER acts_stay");
    tamper(folder + "/" + others[6], "UPDATE acts SET who = 'somebody else'");
    ShopFile in_use = take(ShopFile::open(folder + "/" + others[7]));
    add_build(in_use, 7);

    const std::string now = "2026-03-01T12:00:00Z";
    const std::vector<bool> keep = backups_to_keep(times, *backup_time_from(now));
    const auto removed = take(thin_backups(shop, {}, now));
    EXPECT_EQ(static_cast<long>(removed.size()), std::count(keep.begin(), keep.end(), false));
    EXPECT_GT(removed.size(), 20U);
    const auto left = names_in("shop.backups");
    for (std::size_t i = 0; i < ours.size(); ++i) {
        EXPECT_EQ(std::count(left.begin(), left.end(), ours[i]) == 1, keep[i]) << ours[i];
    }
    others.push_back("shop.backup-2020-01-08T120000Z.rodway");
    for (const std::string& name : others) {
        EXPECT_EQ(std::count(left.begin(), left.end(), name), 1) << name;
    }
    EXPECT_THAT(take(thin_backups(shop, {}, now)), IsEmpty());
}

} // namespace
} // namespace rodway
