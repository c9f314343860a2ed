#include "db/restore.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <fstream>
#include <random>
#include <set>
#include <thread>

#include "db/attachments.h"
#include "db/backups.h"
#include "db/build_store.h"
#include "db/photo_store.h"
#include "tests/db/child_process.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;
using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// A shop that was backed up and worked in since; closed.
class RestoreTest : public ShopTest {
  protected:
    void SetUp() override {
        ShopFile shop = new_shop();
        path_ = in_folder("shop.rodway");
        take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
        backup_ = take(back_up(shop, {}, "2026-03-01T13:00:00Z")).backup.path;
        backed_up_ = dump_with_history(backup_);
        for (int id = 2; id < 12; ++id) {
            Build build = sample_build(id);
            build.note = std::string(3000, 'n');
            take(apply(shop, edits_to_create(build), "Dee", noon));
        }
        present_ = dump_with_history(path_);
    }
    [[nodiscard]] std::vector<std::string> names_in(const std::string& folder) const {
        std::vector<std::string> found;
        const auto all = QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot;
        const QDir dir(QString::fromStdString(in_folder(folder)));
        for (const QString& name : dir.entryList(all, QDir::Name)) {
            found.push_back(name.toStdString());
        }
        return found;
    }
    /// The shop as before, and nothing new beside it or among its backups.
    void expect_untouched() const {
        EXPECT_EQ(dump_with_history(path_), present_);
        EXPECT_THAT(names(), ElementsAre("shop.backups", "shop.rodway"));
        EXPECT_THAT(names_in("shop.backups"), SizeIs(1));
    }
    void expect_sound_and_restored() const {
        EXPECT_EQ(dump_with_history(path_), backed_up_);
        ShopFile shop = take(ShopFile::open(path_));
        EXPECT_THAT(take(shop.check()).findings, IsEmpty());
        take(apply(shop, edits_to_create(sample_build(2)), "Dee", noon));
    }

    std::string path_;
    std::string backup_;
    std::string backed_up_;
    std::string present_;
};

TEST_F(RestoreTest, PutsTheBackupInPlaceAndKeepsWhatStoodThere) {
    QFile::setPermissions(QString::fromStdString(path_),
                          QFileDevice::ReadOwner | QFileDevice::WriteOwner);
    const Restored restored = take(restore(backup_, path_, "2026-03-02T08:00:00Z"));
    EXPECT_EQ(restored.history, (HistoryMark{1, noon}));
    ASSERT_THAT(restored.kept, SizeIs(1));
    EXPECT_THAT(restored.kept[0],
                EndsWith("/shop.backups/shop.before-restore-2026-03-02T080000Z.rodway"));
    EXPECT_EQ(dump_with_history(restored.kept[0]), present_);
    EXPECT_EQ(dump_with_history(backup_), backed_up_);
    EXPECT_THAT(names(), ElementsAre("shop.backups", "shop.rodway"));
    EXPECT_FALSE(QFile::permissions(QString::fromStdString(path_)) & QFileDevice::ReadGroup);
    expect_sound_and_restored();
}

TEST_F(RestoreTest, TwiceInOneSecondKeepsBothOfWhatStoodThere) {
    const Restored first = take(restore(backup_, path_, noon));
    tamper(path_, "UPDATE builds SET name = 'between'");
    const std::string between = dump_with_history(path_);
    const Restored second = take(restore(first.kept[0], path_, noon));
    EXPECT_EQ(dump_with_history(path_), present_);
    EXPECT_EQ(dump_with_history(first.kept[0]), present_);
    EXPECT_EQ(dump_with_history(second.kept[0]), between);
    EXPECT_THAT(second.kept[0], EndsWith("T120000Z-2.rodway"));
}

TEST_F(RestoreTest, TakesInWhatAStoppedProgramLeftInItsLog) {
    // Killed with its last act only in the log.
    EXPECT_EQ(in_child([&] {
                  ShopFile shop = take(ShopFile::open(path_));
                  take(apply(shop, edits_to_create(sample_build(77)), "Dee", noon));
                  ::kill(::getpid(), SIGKILL);
                  return 0;
              }),
              -1);
    ASSERT_GT(QFileInfo(QString::fromStdString(path_ + "-wal")).size(), 0);
    const Restored restored = take(restore(backup_, path_, noon));
    EXPECT_EQ(ask(restored.kept.at(0), "SELECT count(*) FROM builds WHERE id = 77"), "1");
    EXPECT_EQ(ask(restored.kept.at(0), "SELECT count(*) FROM builds"), "12");
    EXPECT_THAT(names(), ElementsAre("shop.backups", "shop.rodway"));
    expect_sound_and_restored();
}

TEST_F(RestoreTest, WorksWhereNothingStandsAndBringsThePhotosAlong) {
    std::string digest;
    std::string lost;
    std::string from_second;
    QDir(folder_.path()).mkdir("second");
    {
        ShopFile shop = take(ShopFile::open(path_));
        for (const char* text : {"kept picture", "lost picture"}) {
            write_bytes(in_folder("camera.jpg"), text);
            const StoredFile stored = take(keep(shop, in_folder("camera.jpg")));
            Photo photo = sample_photo(digest.empty() ? 1 : 2, 1);
            photo.digest = stored.digest;
            take(apply(shop, edits_to_create(photo), "Dee", noon));
            (digest.empty() ? digest : lost) = stored.digest;
        }
        from_second = take(back_up(shop, in_folder("second"), noon)).backup.path;
        present_ = dump_with_history(path_);
    }
    QFile::remove(QString::fromStdString(*path_in(in_folder("second/shop.photos"), lost)));
    QDir(folder_.path()).mkdir("new computer");
    const std::string fresh = in_folder("new computer/engines.rodway");
    const Restored restored = take(restore(from_second, fresh, noon));
    EXPECT_THAT(restored.kept, IsEmpty());
    EXPECT_EQ(restored.photos_copied, 1);
    EXPECT_THAT(restored.photos_missing, ElementsAre(lost));
    EXPECT_EQ(dump_with_history(fresh), present_);
    const ShopFile shop = take(ShopFile::open(fresh));
    const auto photo = path_of(shop, digest);
    ASSERT_TRUE(photo.has_value());
    EXPECT_THAT(*photo, ::testing::HasSubstr("/new computer/engines.photos/"));
    EXPECT_EQ(bytes_of(*photo), "kept picture");
}

TEST_F(RestoreTest, KeepsADamagedShopByteForByteWithItsLog) {
    const std::string whole = bytes_of(path_);
    std::string holed = whole;
    holed.replace(whole.size() / 2, 8192, std::string(8192, '\x5a'));
    std::string headless = whole;
    headless.replace(0, 100, std::string(100, '\0'));
    const std::string log(5000, 'w');
    int number = 0;
    for (const std::string& bytes : {holed, headless, whole.substr(0, 4096 * 3), std::string(),
                                     whole.substr(0, whole.size() - 7), std::string(9000, 't')}) {
        SCOPED_TRACE(number++);
        write_bytes(path_, bytes);
        write_bytes(path_ + "-wal", log);
        const Restored restored = take(restore(backup_, path_, noon));
        ASSERT_THAT(restored.kept, SizeIs(2));
        EXPECT_THAT(restored.kept[0], ::testing::HasSubstr("/shop.backups/shop.damaged-2026"));
        EXPECT_EQ(bytes_of(restored.kept[0]), bytes);
        EXPECT_EQ(restored.kept[1], restored.kept[0] + "-wal");
        EXPECT_EQ(bytes_of(restored.kept[1]), log);
        EXPECT_THAT(names(), ElementsAre("shop.backups", "shop.rodway"));
        expect_sound_and_restored();
        static_cast<void>(take(backups_in(in_folder("shop.backups"))));
        EXPECT_EQ(bytes_of(restored.kept[0]), bytes) << "looking at it must not change it";
    }
}

TEST_F(RestoreTest, DoesNotPlayALogThatStandsAloneIntoTheBackup) {
    {
        ShopFile shop = take(ShopFile::open(path_));
        take(apply(shop, edits_to_create(sample_build(50)), "Dee", noon));
        QFile::copy(QString::fromStdString(path_ + "-wal"),
                    QString::fromStdString(in_folder("log")));
    }
    QFile::remove(QString::fromStdString(path_));
    QFile::rename(QString::fromStdString(in_folder("log")), QString::fromStdString(path_ + "-wal"));
    const std::string log = bytes_of(path_ + "-wal");
    ASSERT_GT(log.size(), 4096U);
    const Restored restored = take(restore(backup_, path_, noon));
    ASSERT_THAT(restored.kept, SizeIs(1));
    EXPECT_EQ(bytes_of(restored.kept[0]), log);
    expect_sound_and_restored();
}

TEST_F(RestoreTest, RefusesWhileTheShopIsOpenInThisOrAnotherProgram) {
    {
        const ShopFile shop = take(ShopFile::open(path_));
        EXPECT_EQ(refusal(restore(backup_, path_, noon, 20ms)).code, ErrorCode::locked_file);
    }
    expect_untouched();
    Signal is_open;
    const pid_t other = start_child([&] {
        const ShopFile shop = take(ShopFile::open(path_)); // open, and at rest
        is_open.tell();
        ::pause();
        return 0;
    });
    is_open.wait();
    const Error error = refusal(restore(backup_, path_, noon, 20ms));
    EXPECT_EQ(error.code, ErrorCode::locked_file);
    ::kill(other, SIGKILL);
    EXPECT_EQ(answer_of(other), -1);
    expect_untouched();
    EXPECT_TRUE(restore(backup_, path_, noon, 20ms).ok());
}

TEST_F(RestoreTest, RefusesWhatIsNoSoundBackupOfThisVersion) {
    const std::string whole = bytes_of(backup_);
    const std::string bad = in_folder("shop.backups/bad");
    const auto refused = [&] { return refusal(restore(bad, path_, noon)).code; };
    EXPECT_EQ(refused(), ErrorCode::cannot_read);
    write_bytes(bad, whole.substr(0, whole.size() - 7));
    EXPECT_EQ(refused(), ErrorCode::damaged_file);
    write_bytes(bad, whole.substr(0, whole.size() / 8192 * 4096));
    EXPECT_EQ(refused(), ErrorCode::damaged_file);
    std::string holed = whole;
    holed.replace(whole.size() - 8192, 4096, std::string(4096, '\x5a'));
    write_bytes(bad, holed);
    EXPECT_EQ(refused(), ErrorCode::damaged_file);
    write_bytes(bad, std::string(9000, 't'));
    EXPECT_EQ(refused(), ErrorCode::foreign_file);
    write_bytes(bad, whole);
    tamper(bad, "PRAGMA user_version = 99");
    EXPECT_EQ(refused(), ErrorCode::newer_version);
    write_bytes(bad, whole);
    tamper(bad, "INSERT INTO set_ups VALUES (5, 777, 'of no build')");
    EXPECT_EQ(refused(), ErrorCode::damaged_file);
    QFile::remove(QString::fromStdString(bad));
    expect_untouched();
}

TEST_F(RestoreTest, RefusesToReplaceItselfOrAnotherProgramsFile) {
    EXPECT_EQ(refusal(restore(path_, path_, noon)).value, "same_file");
    const Error folder = refusal(restore(backup_, in_folder("shop.backups"), noon));
    EXPECT_EQ(folder.code, ErrorCode::cannot_write);
    EXPECT_EQ(refusal(restore(backup_, in_folder("none/shop.rodway"), noon)).value, "no_folder");
    expect_untouched();
    write_bytes(in_folder("notes.txt"), "mine");
    EXPECT_EQ(refusal(restore(backup_, in_folder("notes.txt"), noon)).code,
              ErrorCode::foreign_file);
    EXPECT_EQ(bytes_of(in_folder("notes.txt")), "mine");
    tamper(in_folder("other.rodway"), "CREATE TABLE builds (id INTEGER PRIMARY KEY)");
    const std::string other = bytes_of(in_folder("other.rodway"));
    EXPECT_EQ(refusal(restore(backup_, in_folder("other.rodway"), noon)).code,
              ErrorCode::foreign_file);
    EXPECT_EQ(bytes_of(in_folder("other.rodway")), other);
}

TEST_F(RestoreTest, LeavesTheShopAsItWasWhenNoCopyOfItCanBeMade) {
    QDir(folder_.path()).rename("shop.backups", "moved");
    write_bytes(in_folder("shop.backups"), "a file stands in the way");
    const Error error =
        refusal(restore(in_folder("moved/shop.backup-2026-03-01T130000Z.rodway"), path_, noon));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_THAT(error.field, EndsWith("/shop.backups"));
    EXPECT_EQ(dump_with_history(path_), present_);
    EXPECT_THAT(names(), ElementsAre("moved", "shop.backups", "shop.rodway"));
}

// The disk fills up at every page of both copies in turn.
TEST_F(RestoreTest, LeavesTheShopAsItWasWhereverTheDiskIsFull) {
    const auto restored = [&](unsigned long limit) {
        return in_child([&] {
            limit_file_size(limit);
            const auto done = restore(backup_, path_, noon, 20ms);
            if (done) return 0;
            return done.error().code == ErrorCode::cannot_write ? 1 : 2;
        });
    };
    const auto larger = bytes_of(path_).size();
    ASSERT_GT(larger, bytes_of(backup_).size() + 16384) << "so that the second copy fails too";
    for (unsigned long limit = 0; limit < larger; limit += 4096) {
        ASSERT_EQ(restored(limit), 1) << limit;
        ASSERT_NO_FATAL_FAILURE(expect_untouched()) << limit;
        if (HasFailure()) FAIL() << limit;
    }
    EXPECT_EQ(restored(larger), 0);
    expect_sound_and_restored();
}

TEST_F(RestoreTest, KilledAtAnyMomentLeavesEitherTheShopOrTheBackup) {
    const std::string other = in_folder("other.rodway");
    QFile::copy(QString::fromStdString(path_), QString::fromStdString(other));
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    std::set<std::string> seen;
    for (int round = 0; round < 12; ++round) {
        Signal first_is_done;
        const pid_t child = start_child([&] {
            take(restore(backup_, path_, noon));
            first_is_done.tell();
            for (;;) {
                take(restore(backup_, path_, noon));
                take(restore(other, path_, noon));
            }
            return 0;
        });
        first_is_done.wait();
        std::this_thread::sleep_for(std::chrono::milliseconds(random() % 150));
        ::kill(child, SIGKILL);
        ASSERT_EQ(answer_of(child), -1);
        const std::string found = dump_with_history(path_);
        ASSERT_TRUE(found == backed_up_ || found == present_);
        ShopFile shop = take(ShopFile::open(path_));
        ASSERT_THAT(take(shop.check()).findings, IsEmpty());
        seen.insert(found);
    }
    EXPECT_FALSE(seen.empty());
}

// Another program opens, writes and closes all the while: what it was answered must be in the shop
// or in one of the copies, whatever came between.
TEST_F(RestoreTest, LosesNoActOfAnotherProgramThatComesAndGoes) {
    const std::string log = in_folder("answered");
    const pid_t writer = start_child([&] {
        std::ofstream answered(log);
        for (int i = 0; i < 2000; ++i) {
            std::this_thread::sleep_for(5ms);
            auto opened = ShopFile::open(path_, 2000ms);
            if (!opened) continue; // while it is being replaced
            ShopFile shop = std::move(opened).value();
            Build build = sample_build(1);
            build.id = take(new_id(shop, RecordKind::build));
            build.name = "act " + std::to_string(i);
            if (apply(shop, edits_to_create(build), "Kim", noon)) answered << i << std::endl;
        }
        return 0;
    });
    const ChildGuard guard(writer);
    std::vector<std::string> files{path_};
    int refused = 0;
    for (int tries = 0; tries < 400 && files.size() < 9; ++tries) {
        const auto done = restore(backup_, path_, noon, 2000ms);
        if (done) {
            ASSERT_THAT(done->kept, SizeIs(1));
            files.push_back(done->kept[0]);
            std::this_thread::sleep_for(30ms);
        } else {
            ASSERT_EQ(done.error().code, ErrorCode::locked_file) << describe(done.error());
            ++refused;
        }
    }
    guard.stop();
    EXPECT_GE(files.size(), 4U) << "refused " << refused;
    std::set<std::string> kept;
    for (const std::string& file : files) {
        ShopFile shop = take(ShopFile::open(file));
        EXPECT_THAT(take(shop.check()).findings, IsEmpty()) << file;
        for (const Build& build : take(load_builds(shop))) kept.insert(build.name);
    }
    std::ifstream answered(log);
    int acts = 0;
    for (int number = 0; answered >> number; ++acts) {
        EXPECT_EQ(kept.count("act " + std::to_string(number)), 1U) << number;
    }
    EXPECT_GT(acts, 3);
}

} // namespace
} // namespace rodway
