#include "db/temporary_files.h"

#include <QDir>
#include <algorithm>
#include <chrono>
#include <filesystem>

#include "db/attachments.h"
#include "db/backups.h"
#include "db/build_store.h"
#include "db/durable_file.h"
#include "db/rescue_copy.h"
#include "db/whole_copy.h"
#include "tests/db/child_process.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// As if nobody had touched it for so long.
void age(const fs::path& path, std::chrono::hours by) {
    fs::last_write_time(path, fs::file_time_type::clock::now() - by);
}

class TemporaryFiles : public ShopTest {
  protected:
    /// Everything below the test's folder that is called as what is in the making is, sorted.
    [[nodiscard]] std::vector<fs::path> temporaries() const {
        std::vector<fs::path> found;
        for (const auto& there : fs::recursive_directory_iterator(in_folder(""))) {
            if (there.path().filename().string().starts_with(".rodway-")) {
                found.push_back(there.path());
            }
        }
        std::sort(found.begin(), found.end());
        return found;
    }
    void age_all(std::chrono::hours by) const {
        for (const fs::path& path : temporaries()) {
            if (fs::is_directory(path)) {
                for (const auto& inside : fs::recursive_directory_iterator(path)) age(inside, by);
            }
            age(path, by);
        }
    }
    std::string write(const std::string& name, std::chrono::hours untouched_for) const {
        write_bytes(in_folder(name), "half");
        age(in_folder(name), untouched_for);
        return in_folder(name);
    }

    const std::string id_ = "0123456789abcdef0123456789abcdef";
};

TEST_F(TemporaryFiles, OfAKilledProgramAreGoneWithTheFirstBackupAfterADay) {
    std::string path;
    {
        ShopFile shop = new_shop();
        path = shop.path();
        take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
        write_bytes(in_folder("tip.jpg"), "a mark at the tip");
        static_cast<void>(take(keep(shop, in_folder("tip.jpg"))));
        static_cast<void>(take(back_up(shop, {}, noon)));
        QDir(folder_.path()).mkdir("second");
        static_cast<void>(take(back_up(shop, in_folder("second"), noon)));
    }
    const std::string before = dump_with_history(path);
    // Whatever the program writes under a temporary name, wherever it does.
    in_child([&]() -> int {
        DurableFile export_file = take(DurableFile::begin(in_folder("")));
        DurableFile photo = take(DurableFile::begin(photos_folder(path)));
        DurableFile copied = take(DurableFile::begin(in_folder("second/shop.photos")));
        take(photo.write("half a phot"));
        ShopFile shop = take(ShopFile::open(path));
        WholeCopy backup = take(WholeCopy::make(shop.connection(), backups_folder(path)));
        WholeCopy second =
            take(WholeCopy::make(shop.connection(), in_folder("second/shop.backups")));
        WholeCopy incoming = take(WholeCopy::make(shop.connection(), in_folder("")));
        RescueCopy rescued = take(RescueCopy::make(path, in_folder("")));
        ::_exit(0);
    });
    ASSERT_THAT(temporaries(), SizeIs(7));
    ShopFile shop = take(ShopFile::open(path));
    const auto back_up_both = [&] {
        static_cast<void>(take(back_up(shop, {}, noon)));
        static_cast<void>(take(back_up(shop, in_folder("second"), noon)));
    };
    back_up_both();
    EXPECT_THAT(temporaries(), SizeIs(7));
    age_all(23h);
    back_up_both();
    EXPECT_THAT(temporaries(), SizeIs(7));
    age_all(25h);
    back_up_both();
    EXPECT_THAT(temporaries(), IsEmpty());
    EXPECT_EQ(dump_with_history(path), before);
    EXPECT_THAT(take(shop.check()).findings, IsEmpty());
}

TEST_F(TemporaryFiles, OfAWriterThatBeganDaysAgoStayWhileItWrites) {
    DurableFile file = take(DurableFile::begin(in_folder("")));
    ASSERT_THAT(temporaries(), SizeIs(1));
    age_all(100h);
    take(file.write("slowly"));
    remove_stale_temporaries(in_folder(""));
    take(file.commit(in_folder("card")));
    EXPECT_EQ(bytes_of(in_folder("card")), "slowly");
}

TEST_F(TemporaryFiles, ThatBelongTogetherStayTogether) {
    // Only the journal is written for long in a large transaction, or only one file of a folder.
    write(".rodway-" + id_, 100h);
    write(".rodway-" + id_ + "-journal", 1h);
    QDir(folder_.path()).mkpath(".rodway-rescue-aBcXyZ/deeper");
    write(".rodway-rescue-aBcXyZ/copy", 100h);
    write(".rodway-rescue-aBcXyZ/deeper/.hidden", 1h);
    for (const char* folder : {".rodway-rescue-aBcXyZ/deeper", ".rodway-rescue-aBcXyZ"}) {
        age(in_folder(folder), 100h);
    }
    const auto before = names();
    remove_stale_temporaries(in_folder(""));
    EXPECT_THAT(temporaries(), SizeIs(3));
    EXPECT_EQ(names(), before);
    age_all(100h);
    remove_stale_temporaries(in_folder(""));
    EXPECT_THAT(temporaries(), IsEmpty());
}

TEST_F(TemporaryFiles, AreKnownByTheirWholeNameAndNothingElseGoes) {
    const std::string hand_made = ".rodway-" + id_;
    std::vector<std::string> others{
        ".rodway-",          ".rodway-notes",         hand_made.substr(0, hand_made.size() - 1),
        hand_made + "0",     hand_made + ".txt",      hand_made + "-journal-2",
        "x" + hand_made,     "rodway-" + id_,         ".rodway-0123456789ABCDEF0123456789ABCDEF",
        ".rodway-rescue-ab", ".rodway-repair-aBcXyZ", "shop.rodway"};
    for (const std::string& name : others) write(name, 1000h);
    write("kept elsewhere", 1000h);
    fs::create_symlink(in_folder("kept elsewhere"),
                       in_folder(".rodway-1123456789abcdef0123456789abcdef"));
    QDir(folder_.path()).mkdir("below");
    write("below/" + hand_made, 1000h);
    age(in_folder("below"), 1000h);
    const std::string ours = write(hand_made, 1000h);
    const std::string log = write(hand_made + "-wal", 1000h);
    remove_stale_temporaries(in_folder(""));
    EXPECT_FALSE(fs::exists(ours));
    EXPECT_FALSE(fs::exists(log));
    for (const std::string& name : others) EXPECT_TRUE(fs::exists(in_folder(name))) << name;
    EXPECT_EQ(bytes_of(in_folder(".rodway-1123456789abcdef0123456789abcdef")), "half");
    EXPECT_TRUE(fs::exists(in_folder("below/" + hand_made)));
    remove_stale_temporaries(in_folder("no such folder"));
}

} // namespace
} // namespace rodway
